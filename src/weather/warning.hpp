#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/instant.hpp"
#include "geo/position.hpp"

namespace gloam::weather {

/// A ring of points, the last equal to the first; or a circle.
struct WarnedArea {
    std::string name;
    std::vector<std::vector<geo::LatLon>> polygons;
    struct Circle {
        geo::LatLon centre;
        double radius_m = 0.0;
    };
    std::vector<Circle> circles;
};

/// An official warning, word for word as its issuer gave it.
struct Warning {
    std::string issuer;
    std::string event;     ///< "Wind", "Yellow rain warning"
    std::string severity;  ///< as in the file: Extreme, Severe, Moderate, Minor or Unknown
    std::string headline;
    std::string description;
    std::string instruction;
    Instant sent;
    std::optional<Instant> onset;
    std::optional<Instant> expires;
    std::vector<WarnedArea> areas;
};

/// Whether the warning may hold at a place: inside one of its areas, or where an area has a name but no
/// outline. Borders count as inside.
bool may_hold_at(const Warning& warning, geo::LatLon place);

/// Whether the warning may hold at some time from `from` to `to`. Without a time it may.
bool may_hold_during(const Warning& warning, Instant from, Instant to);

/// The warnings in a file of the Common Alerting Protocol 1.2 (OASIS, 2010), or in a feed of such alerts:
/// those of status Actual that are not cancelled or replaced by a later one in the same file; of several
/// languages English if it is there, else the first. `name` stands for the file in errors. Errors
/// (kUnreadable): no XML, no alert, a time or a place that makes no sense.
Result<std::vector<Warning>> read_warnings(std::string_view xml, std::string_view name);

}  // namespace gloam::weather
