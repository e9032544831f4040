#include "sky/air_ray.hpp"

#include <algorithm>
#include <cmath>

#include "air/standard_atmosphere.hpp"

namespace gloam::sky {
namespace {

void set_scattering(const Optics& optics, AirStep& step) {
    for (std::size_t degree = 0; degree < kDegrees; ++degree) {
        const PerSpecies& term = phase_terms()[degree];
        for (std::size_t b = 0; b < kBands; ++b) {
            double sum = 0.0;
            for (std::size_t s = 0; s < kSpecies; ++s) {
                sum += step.density[s] * term[s] * optics.scattering[s][b];
            }
            step.scattering_per_m[degree][b] = static_cast<float>(sum);
        }
    }
}

}  // namespace

double AirRay::radius_at(double path_m) const {
    return std::sqrt(start_radius_m * start_radius_m + path_m * path_m +
                     2.0 * start_radius_m * path_m * cos_zenith);
}

void AirRay::transmission_at(double path_m, FloatSpectrum& transmission) const {
    const auto beyond =
        std::find_if(steps.begin(), steps.end(), [=](const AirStep& s) { return s.middle_m > path_m; });
    if (beyond == steps.end()) {
        std::copy(std::begin(end_transmission), std::end(end_transmission), std::begin(transmission));
        return;
    }
    const bool first = beyond == steps.begin();
    const double start_m = first ? 0.0 : std::prev(beyond)->middle_m;
    const auto share = static_cast<float>((path_m - start_m) / (beyond->middle_m - start_m));
    for (std::size_t b = 0; b < kBands; ++b) {
        const float low = first ? 1.0F : std::prev(beyond)->transmission[b];
        transmission[b] = low + share * (beyond->transmission[b] - low);
    }
}

double path_to_radius_m(double radius_m, double cos_zenith, double target_radius_m, bool far_side) {
    const double along = radius_m * cos_zenith;
    const double square = along * along + (target_radius_m - radius_m) * (target_radius_m + radius_m);
    const double root = std::sqrt(std::max(0.0, square));
    return far_side ? root - along : -root - along;
}

AirRay cast_ray(double height_m, double cos_zenith, int steps, const Optics& optics,
                double aerosol_scale_height_m) {
    AirRay ray;
    ray.start_radius_m = air::kEarthRadius_m + height_m;
    ray.cos_zenith = cos_zenith;
    ray.sin_zenith = std::sqrt(std::max(0.0, 1.0 - cos_zenith * cos_zenith));
    ray.meets_ground = cos_zenith < 0.0 && ray.start_radius_m * ray.sin_zenith < air::kEarthRadius_m;
    const double end_radius_m =
        ray.meets_ground ? air::kEarthRadius_m : air::kEarthRadius_m + air::kTopOfAir_m;
    ray.length_m = path_to_radius_m(ray.start_radius_m, cos_zenith, end_radius_m, !ray.meets_ground);
    Spectrum depth{};  // from the start to the beginning of the step
    for (int i = 0; i < steps; ++i) {
        AirStep step;
        step.from_m = ray.length_m * i * i / (steps * steps);
        step.to_m = ray.length_m * (i + 1) * (i + 1) / (steps * steps);
        step.middle_m = 0.5 * (step.from_m + step.to_m);
        step.height_m = ray.radius_at(step.middle_m) - air::kEarthRadius_m;
        step.density = densities_per_m(step.height_m, aerosol_scale_height_m);
        step.cos_zenith = (ray.start_radius_m * cos_zenith + step.middle_m) / ray.radius_at(step.middle_m);
        step.harmonics = zenith_harmonics(step.cos_zenith);
        set_scattering(optics, step);
        for (std::size_t b = 0; b < kBands; ++b) {
            double extinction_per_m = 0.0;
            for (std::size_t s = 0; s < kSpecies; ++s) {
                extinction_per_m += step.density[s] * optics.depth[s][b];
            }
            const double step_depth = extinction_per_m * (step.to_m - step.from_m);
            const double mean = step_depth > 1e-9 ? -std::expm1(-step_depth) / step_depth : 1.0;
            step.transmission[b] = static_cast<float>(std::exp(-depth[b]) * mean);
            depth[b] += step_depth;
        }
        ray.steps.push_back(step);
    }
    for (std::size_t b = 0; b < kBands; ++b) {
        ray.end_transmission[b] = static_cast<float>(std::exp(-depth[b]));
    }
    return ray;
}

double SunAlongRay::zenith_rad(double path_m, double radius_m) const {
    return std::acos(std::clamp((start_m + path_m * cosine) / radius_m, -1.0, 1.0));
}

double SunAlongRay::azimuth_cosine(double ray_cos_zenith, double zenith_rad) const {
    const double sines =
        std::sqrt(std::max(0.0, 1.0 - ray_cos_zenith * ray_cos_zenith)) * std::sin(zenith_rad);
    return sines < 1e-6 ? 0.0
                        : std::clamp((cosine - ray_cos_zenith * std::cos(zenith_rad)) / sines, -1.0, 1.0);
}

SunAlongRay sun_along(const AirRay& ray, double sun_zenith_rad, double azimuth_from_sun_rad) {
    const double cosine = ray.cos_zenith * std::cos(sun_zenith_rad) +
                          ray.sin_zenith * std::sin(sun_zenith_rad) * std::cos(azimuth_from_sun_rad);
    return {ray.start_radius_m * std::cos(sun_zenith_rad), cosine};
}

}  // namespace gloam::sky
