#include "astro/dip.hpp"

#include <cmath>

#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"

namespace gloam::astro {

Angle dip(HeightAboveHorizon height, RefractionCoefficient k) {
    GLOAM_CHECK(height.metres >= 0.0 && k.value < 1.0);
    const double radius_m = air::kEarthRadius_m / (1.0 - k.value);
    // cos dip = R' / (R' + h) as a tangent, which keeps its digits for small heights.
    const double horizon_m = std::sqrt(height.metres * (2.0 * radius_m + height.metres));
    return Angle::radians(std::atan2(horizon_m, radius_m));
}

}  // namespace gloam::astro
