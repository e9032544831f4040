#pragma once

#include "base/angle.hpp"
#include "base/kinds.hpp"

namespace gloam::astro {

/// Terrestrial refraction coefficient: how many times less a low ray curves than the ground under it. It
/// wanders most at dawn and dusk: from -0.2 over warm water to 0.5 and more in an inversion.
struct RefractionCoefficient {
    double value = 0.0;
};
inline constexpr RefractionCoefficient kNoAir{0.0};
inline constexpr RefractionCoefficient kOverLandByDay{0.13};  ///< surveying practice (Gauss)
inline constexpr RefractionCoefficient kOverSea{1.0 / 6.0};   ///< dip tables of navigation, 1.76' sqrt(h/m)

/// How far the horizon lies below the astronomical one for an eye at `height` (0 or more) above the surface
/// that forms it. Sphere of 6371 km, enlarged to R / (1 - k) for the rays' curvature: cos dip = R' / (R' +
/// h). Also the true depression of the sun at which a cloud at `height` loses it, without air (k = 0).
Angle dip(HeightAboveHorizon height, RefractionCoefficient k);

}  // namespace gloam::astro
