#include "astro/phase.hpp"

#include <cmath>

namespace gloam::astro {

Angle phase_angle(const BodyPosition& sun, const BodyPosition& moon) {
    const double sun_up = sun.altitude.angle.radians();
    const double moon_up = moon.altitude.angle.radians();
    const double cos_elongation =
        std::sin(sun_up) * std::sin(moon_up) +
        std::cos(sun_up) * std::cos(moon_up) * std::cos(turn(sun.azimuth, moon.azimuth).radians());
    const double sin_elongation = std::sqrt(std::fmax(0.0, 1.0 - cos_elongation * cos_elongation));
    return Angle::radians(
        std::atan2(sun.distance_m * sin_elongation, moon.distance_m - sun.distance_m * cos_elongation));
}

}  // namespace gloam::astro
