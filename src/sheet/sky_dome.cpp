#include "sheet/sky_dome.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/columns.hpp"

namespace gloam::sheet {

SkyDome::SkyDome(const outlook::SeenSky& seen, std::uint64_t seed, double pixel_rad)
    : seen_(&seen), lights_(seen.panorama, seen.clouds.layers().size()), pixel_rad_(pixel_rad) {
    const std::size_t points = sky_lattice().size();
    OpenSky open{std::vector<double>(points, 1.0), std::vector<double>(points, 1.0)};
    for (std::size_t k = 0; k < seen.clouds.layers().size(); ++k) {
        sheets_.emplace_back(seen, k, lights_, scrambled(seed * SkyLight::kMostLayers + k + 1), pixel_rad,
                             open);
    }
}

SkyDome::Look SkyDome::look(const SkyDirection& direction) const {
    const SkyLight light = lights_.at(direction);
    Look result;
    double rest = 1.0;
    for (std::size_t k = 0; k < sheets_.size(); ++k) {
        const DrawnCloud cloud = sheets_[k].at(direction, light.layers[k]);
        result.light = result.light + cloud.light * (rest * cloud.opacity);
        result.open *= 1.0 - cloud.opacity * (1.0 - cloud.veil);
        rest *= 1.0 - cloud.opacity;
    }
    result.light = result.light + light.clear * rest;
    return result;
}

sky::Xyz SkyDome::light_at(const SkyDirection& direction) const {
    const Look seen = look(direction);
    const double aside_rad = direction.azimuth_rad * std::cos(direction.elevation_rad);
    const double off_rad = std::hypot(aside_rad, direction.elevation_rad - seen_->sun_seen.angle.radians());
    const double covered = std::clamp((sky::kSunRadius_rad - off_rad) / pixel_rad_ + 0.5, 0.0, 1.0);
    return seen.light + seen_->sun_disc * (covered * seen.open);
}

sky::Xyz SkyDome::sun_beam() const {
    const SkyDirection sun{0.0, seen_->sun_seen.angle.radians()};
    if (sun.elevation_rad <= 0.0) {
        return {};
    }
    const double solid_angle = std::numbers::pi * sky::kSunRadius_rad * sky::kSunRadius_rad;
    return seen_->sun_disc * (look(sun).open * solid_angle);
}

}  // namespace gloam::sheet
