#pragma once

#include "astro/ephemeris.hpp"
#include "astro/vec3.hpp"
#include "base/instant.hpp"

namespace gloam::astro {

/// Apparent place of a body's centre from the Earth's centre, metres, in the celestial intermediate frame of
/// date (z to the celestial intermediate pole, x to the intermediate origin): light time, aberration, frame
/// bias, precession and nutation are in it. The slow part of an ephemeris, 40 us for the sun.
///
/// Accuracy: see
/// ephemeris.hpp. Source: ERFA epv00 (VSOP2000 fit) and moon98 (Meeus 1998, ELP 2000-82), IAU 2006
/// precession, IAU 2000B nutation.
Vec3 geocentric_place(Body body, Instant instant);

/// Turn of the Earth, radians: from the celestial intermediate origin to the meridian of Greenwich,
/// eastwards. Source: IAU 2000, ERFA era00.
double earth_rotation_rad(Instant instant);

/// A vector of the celestial intermediate frame in the Earth's own frame (x to Greenwich, z to the north
/// pole).
Vec3 to_earth_frame(Vec3 celestial, Instant instant);

}  // namespace gloam::astro
