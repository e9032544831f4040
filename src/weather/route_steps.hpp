#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "weather/route_reading.hpp"

namespace gloam::weather {

/// Pressure at the base and the top of one layer, where the files say it.
struct CloudBounds {
    const Field* base = nullptr;
    const Field* top = nullptr;
};

/// The fields of one member at one time that a route uses, all on one grid.
struct RouteStep {
    std::optional<int> member;
    Instant from;  ///< equals `to` for an instant
    Instant to;
    std::vector<const Field*> cover;    ///< what the route reads for cover, from the ground up
    std::vector<const Field*> earlier;  ///< averages that end at `from`, to be taken off `cover`; or none
    std::vector<const Field*> heights;  ///< geopotential heights on levels at `to`, from the ground up
    std::array<CloudBounds, 3> bounds;  ///< by Band, of the same time as the cover
};

/// The steps that can be had by this reading, by member and then by time; what is left out goes to `notes`.
/// Refers to the fields.
std::vector<RouteStep> steps_for(const RouteReading& reading, std::span<const Field* const> fields,
                                 std::vector<std::string>& notes);

}  // namespace gloam::weather
