#include "sky/air_light.hpp"

#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "sky/exponential.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;

/// Scattering per metre at a step, weighted by phase functions.
void scattering_per_m(const Optics& optics, const PerSpecies& density, const PerSpecies& phase,
                      FloatSpectrum& result) {
    float factor[kSpecies];
    for (std::size_t s = 0; s < kSpecies; ++s) {
        factor[s] = static_cast<float>(density[s] * phase[s]);
    }
    for (std::size_t b = 0; b < kBands; ++b) {
        float sum = 0.0F;
        for (std::size_t s = 0; s < kSpecies; ++s) {
            sum += factor[s] * static_cast<float>(optics.scattering[s][b]);
        }
        result[b] = sum;
    }
}

void gather_step(const Air& air, const AirStep& step, const SunAlongRay& sun, const PerSpecies& phase,
                 const FloatSpectrum& sunlight, StepLight& light) {
    const auto length_m = static_cast<float>(step.to_m - step.from_m);
    if (const auto at = air.beam.columns().place(step.height_m, light.sun_zenith_rad)) {
        air.beam.ln_transmission(*at, light.single);
        exponentiate(light.single);
        FloatSpectrum scattering;
        scattering_per_m(air.optics, step.density, phase, scattering);
        for (std::size_t b = 0; b < kBands; ++b) {
            light.single[b] *= scattering[b] * sunlight[b] * step.transmission[b] * length_m;
        }
    } else {
        std::fill(std::begin(light.single), std::end(light.single), 0.0F);
    }
    FloatSpectrum series[kDegrees];
    air.diffuse.scatter(step, DiffuseField::place(step.height_m, light.sun_zenith_rad), series);
    sum_of_orders(series, azimuth_cosines(sun.azimuth_cosine(step.cos_zenith, light.sun_zenith_rad)),
                  light.diffuse);
    for (std::size_t b = 0; b < kBands; ++b) {
        light.diffuse[b] *= step.transmission[b] * length_m;
    }
}

}  // namespace

void gather_light(const Air& air, const AirRay& ray, const SunAlongRay& sun, std::vector<StepLight>& lights) {
    const PerSpecies phase = phase_functions(sun.cosine);
    FloatSpectrum sunlight;
    for (std::size_t b = 0; b < kBands; ++b) {
        sunlight[b] = static_cast<float>(air.bands->sun_w_m2_nm[b] / (4.0 * kPi));
    }
    lights.resize(ray.steps.size());
    for (std::size_t i = 0; i < lights.size(); ++i) {
        const AirStep& step = ray.steps[i];
        lights[i].sun_zenith_rad = sun.zenith_rad(step.middle_m, air::kEarthRadius_m + step.height_m);
        gather_step(air, step, sun, phase, sunlight, lights[i]);
    }
}

Spectrum clear_sky_radiance(const Air& air, double height_m, Angle sun_elevation, Angle elevation,
                            Angle azimuth_from_sun, int steps) {
    const AirRay ray = cast_ray(height_m, std::sin(elevation.radians()), steps, air.optics,
                                air.atmosphere.aerosol_scale_height_m);
    std::vector<StepLight> lights;
    gather_light(air, ray, sun_along(ray, kPi / 2.0 - sun_elevation.radians(), azimuth_from_sun.radians()),
                 lights);
    Spectrum radiance{};
    for (const StepLight& light : lights) {
        for (std::size_t b = 0; b < kBands; ++b) {
            radiance[b] += static_cast<double>(light.single[b]) + static_cast<double>(light.diffuse[b]);
        }
    }
    return radiance;
}

}  // namespace gloam::sky
