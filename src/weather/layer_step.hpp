#pragma once

#include "weather/layers.hpp"
#include "weather/route_steps.hpp"

namespace gloam::weather {

/// The three layers of one step that was found by `reading` (see `layers_of`). Cover that has to be worked
/// out first, from humidity or from two averages, is held for this step alone.
LayerStep layer_step(const RouteReading& reading, const RouteStep& step);

}  // namespace gloam::weather
