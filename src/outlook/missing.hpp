#pragma once

#include <span>
#include <string>
#include <vector>

#include "outlook/moments.hpp"
#include "weather/layers.hpp"

namespace gloam::outlook {

/// What the forecast does not say of an event with these moments, and what is taken instead, in words for a
/// tired person. `ozone_du` is the ozone taken.
std::vector<std::string> missing_in(const weather::LayeredForecast& forecast, std::span<const Moment> moments,
                                    double ozone_du);

}  // namespace gloam::outlook
