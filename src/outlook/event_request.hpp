#pragma once

#include "astro/crossing.hpp"
#include "sky/ground.hpp"

namespace gloam::outlook {

/// One event: who looks, from where, and the half day in which the sun comes or goes.
struct EventRequest {
    astro::Observer observer;
    astro::HalfDay half_day;
    Instant run_time;  ///< of the forecast, for the lead
    sky::Ground ground = sky::Ground::kLand;
    double town_zenith_cd_m2 = 0.0;  ///< what the lights of towns add to a clear night's zenith
};

}  // namespace gloam::outlook
