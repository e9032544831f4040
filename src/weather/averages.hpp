#pragma once

#include <vector>

#include "weather/route_steps.hpp"

namespace gloam::weather {

/// Of averages that start together (0 to 3 h, 0 to 6 h) the longer is given the shorter as `earlier`, and is
/// then one of the hours after it alone. Steps stand by member and time. An average is left whole where what
/// would be left is less than a third of it: the packing noise of both grows with the lengths, (6 e6 - 3 e3)
/// / 3, and from a third on it is at most five times the noise of one field; an hour of six would make it
/// eleven times.
void take_off_earlier_parts(std::vector<RouteStep>& steps);

/// Average cover from `step.from` to `step.to` once the earlier part is taken off, by place in `step.cover`;
/// kept within 0 to 1. A cell counts where both averages have a value. `step.earlier` must not be empty.
std::vector<Field> later_part(const RouteStep& step);

}  // namespace gloam::weather
