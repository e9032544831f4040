#pragma once

#include "weather/layers.hpp"
#include "weather/step_levels.hpp"

namespace gloam::weather {

/// The three layers of one step, from cover on levels or from the total (see `layers_of`).
LayerStep layer_step(LayerRoute route, const StepLevels& levels);

}  // namespace gloam::weather
