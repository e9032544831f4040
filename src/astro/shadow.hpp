#pragma once

#include "astro/vec3.hpp"
#include "base/angle.hpp"

namespace gloam::astro {

/// Height of the edge of the Earth's shadow overhead, metres, for a sun `depression` below the horizon (true,
/// airless; 0 to under 90 deg): R (1 / cos d - 1). With the sun up there is no shadow: 0.
/// A bare sphere of 6371 km in parallel light: air bends the grazing ray and lowers the edge, by some 10 km
/// at a depression of 4 deg; the sun's disc blurs it by half a degree of depression.
double shadow_height_m(Angle depression);

/// Whether the Earth (as above) keeps the sun from a point. Both vectors from the Earth's centre, in any one
/// frame; `point_m` in metres, `to_sun` of length 1. In shadow if P.s < 0 and |P - (P.s) s| < R.
bool in_earth_shadow(Vec3 point_m, Vec3 to_sun);

}  // namespace gloam::astro
