#pragma once

#include <optional>
#include <string>
#include <vector>

#include "weather/layers.hpp"

namespace gloam::weather {

/// The instantaneous fields of one member at one valid time that a route uses, all on one grid, from the
/// ground up.
struct StepLevels {
    std::optional<int> member;
    Instant valid;
    std::vector<const Field*> cover;    ///< by route: cover on levels, or the one total
    std::vector<const Field*> heights;  ///< geopotential heights on levels; may be empty
};

/// The steps that `route` can use, by member and then by time; what is left out goes to `notes`. Refers to
/// the forecast's fields.
std::vector<StepLevels> steps_for(LayerRoute route, const Forecast& forecast,
                                  std::vector<std::string>& notes);

}  // namespace gloam::weather
