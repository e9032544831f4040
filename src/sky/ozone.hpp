#pragma once

#include "base/angle.hpp"

namespace gloam::sky {

/// Total column of ozone that is usual at a place and time of the year, Dobson units: 235 to 445.
/// `day_of_year` 1 is 1 January. Source: van Heuklon 1979, Solar Energy 22, 63 (as four open programs have
/// it). Accuracy: a day's column lies 10 to 15 % about it at middle latitudes; in the southern spring the
/// ozone hole, which came later, is not in it; against the AFGL atmospheres 12 %.
double usual_ozone_du(Angle latitude, Angle longitude, int day_of_year);

}  // namespace gloam::sky
