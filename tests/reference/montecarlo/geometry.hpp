#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "astro/vec3.hpp"

namespace gloam::montecarlo {

/// Kilometres from the sphere's centre, or directions: z up at the viewer, x towards the sun.
using astro::Vec3;

inline Vec3 unit(Vec3 v) {
    return 1.0 / astro::length(v) * v;
}

inline Vec3 direction_of(double elevation_deg, double azimuth_deg) {
    const double el = elevation_deg * std::numbers::pi / 180.0;
    const double az = azimuth_deg * std::numbers::pi / 180.0;
    return {std::cos(el) * std::cos(az), std::cos(el) * std::sin(az), std::sin(el)};
}

/// Path to the far crossing of a shell from inside it. The point is at radius `r`, `along_km` the product of
/// its place and the direction.
inline double path_out_km(double r, double along_km, double shell_km) {
    return -along_km + std::sqrt(std::max(0.0, along_km * along_km + (shell_km - r) * (shell_km + r)));
}

/// Never.
inline constexpr double kNever_km = 1e300;

/// Path to the near crossing of a shell from outside it, or kNever_km.
inline double path_in_km(double r, double along_km, double shell_km) {
    const double discriminant = along_km * along_km - (r - shell_km) * (r + shell_km);
    return along_km >= 0.0 || discriminant < 0.0 ? kNever_km
                                                 : std::max(0.0, -along_km - std::sqrt(discriminant));
}

}  // namespace gloam::montecarlo
