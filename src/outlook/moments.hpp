#pragma once

#include <vector>

#include "astro/crossing.hpp"
#include "sky/panorama.hpp"

namespace gloam::outlook {

/// IAU 2012 resolution B2.
inline constexpr double kAstronomicalUnit_m = 149597870.7e3;

/// The sun at one moment of an event.
struct Moment {
    Instant instant;
    Azimuth azimuth;
    sky::SunState sun;
};

/// Which part of an event a sun elevation belongs to.
bool is_after(Angle sun_elevation);  ///< [-6, -0.5] deg: the sun below, colour on the cloud above
bool is_gold(Angle sun_elevation);   ///< (-0.5, +3] deg: the sun at the horizon

/// The moments at which an event is looked at, in time order: sun from -9 to +10 deg, every 0.25 deg from
/// -6.5 to +3, else every 0.5. Elevations
/// that the sun does not pass on this half day are left out; error (kNotFound) if it never passes -6 to -0.5
/// deg, saying how low or high it stays.
Result<std::vector<Moment>> moments_of(const astro::Observer& observer, const astro::HalfDay& half_day);

}  // namespace gloam::outlook
