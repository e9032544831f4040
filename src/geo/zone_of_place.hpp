#pragma once

#include <string>
#include <string_view>

#include "base/error.hpp"
#include "base/instant.hpp"
#include "geo/position.hpp"
#include "geo/zone.hpp"

namespace gloam::geo {

/// A zone taken from the nearest town.
struct ZoneGuess {
    Zone zone;
    std::string town;
    double distance_m = 0.0;
};

/// The zone of the nearest place in a GeoNames cities table (tab separated; `cities_text` is the file's
/// content). Refused, asking for the zone: nearest place more than 150 km away, or a place with another UTC
/// offset at `when` nearly as near (within 1.5 times the distance plus 10 km).
Result<ZoneGuess> zone_of_nearest_town(LatLon at, Instant when, std::string_view cities_text);

}  // namespace gloam::geo
