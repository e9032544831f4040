#include "astro/shadow.hpp"

#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"

namespace gloam::astro {

double shadow_height_m(Angle depression) {
    GLOAM_CHECK(depression.radians() < std::numbers::pi / 2.0);
    return depression.radians() <= 0.0 ? 0.0
                                       : air::kEarthRadius_m * (1.0 / std::cos(depression.radians()) - 1.0);
}

bool in_earth_shadow(Vec3 point_m, Vec3 to_sun) {
    const double along_m = dot(point_m, to_sun);
    return along_m < 0.0 && length(point_m - along_m * to_sun) < air::kEarthRadius_m;
}

}  // namespace gloam::astro
