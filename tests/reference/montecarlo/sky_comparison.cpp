#include "reference/montecarlo/sky_comparison.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::montecarlo {
namespace {

const sky::Bands& bands() {
    return test::tables().bands;
}

Light light_of(double sun_deg, std::string where, const Estimate& estimate) {
    return {sun_deg, std::move(where),
            estimate.figure([](const sky::Spectrum& spectrum) { return bands().xyz(spectrum).y; }),
            sky::chromaticity(bands().xyz(estimate.mean()))};
}

/// The deeper the twilight, the fewer paths find the light.
int sky_paths_per_batch(double sun_deg) {
    return sun_deg >= 0.0 ? 1024 : sun_deg >= -3.0 ? 2048 : 8192;
}
int level_paths_per_batch(double sun_deg) {
    return sun_deg >= -3.0 ? 1024 : sun_deg >= -7.0 ? 4096 : 12288;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

}  // namespace

std::vector<Light> monte_carlo_sky(double aerosol_depth_550, const Again& again,
                                   std::span<const double> suns_deg, std::span<const Direction> directions,
                                   int thrift, unsigned threads) {
    const Medium air = clear_air({.aerosol_depth_550 = aerosol_depth_550}, bands());
    const SunBeam beam(air);
    const TracerSettings settings{.again = again};
    std::vector<Light> lights;
    for (const double sun_deg : suns_deg) {
        for (const Direction& direction : directions) {
            const Effort effort{.paths_per_batch = sky_paths_per_batch(sun_deg) / thrift,
                                .seed = lights.size(),
                                .threads = threads};
            const View view{0.0, sun_deg, direction.elevation_deg, direction.azimuth_deg};
            lights.push_back(light_of(sun_deg, direction.name, radiance(beam, settings, view, effort)));
        }
    }
    return lights;
}

std::vector<Light> fast_sky(double aerosol_depth_550, std::span<const double> suns_deg,
                            std::span<const Direction> directions) {
    const sky::Air air = test::air_with_aerosol(aerosol_depth_550);
    std::vector<Light> lights;
    for (const double sun_deg : suns_deg) {
        for (const Direction& direction : directions) {
            const sky::Xyz seen =
                test::sky_light(air, sun_deg, direction.elevation_deg, direction.azimuth_deg);
            lights.push_back({sun_deg, direction.name, {seen.y, 0.0}, sky::chromaticity(seen)});
        }
    }
    return lights;
}

std::vector<Light> monte_carlo_level(double aerosol_depth_550, std::span<const double> suns_deg,
                                     unsigned threads) {
    const Medium air = clear_air({.aerosol_depth_550 = aerosol_depth_550}, bands());
    const SunBeam beam(air);
    std::vector<Light> lights;
    for (const double sun_deg : suns_deg) {
        const Effort effort{
            .paths_per_batch = level_paths_per_batch(sun_deg), .seed = lights.size(), .threads = threads};
        Estimate estimate = irradiance(beam, {}, {0.0, sun_deg}, effort);
        const sky::Spectrum sun = level_sun(beam, sun_deg);
        for (sky::Spectrum& batch : estimate.batches) {
            for (std::size_t b = 0; b < sky::kBands; ++b) {
                batch[b] += sun[b];
            }
        }
        lights.push_back(light_of(sun_deg, "level", estimate));
    }
    return lights;
}

std::vector<Light> fast_level(double aerosol_depth_550, std::span<const double> suns_deg) {
    const sky::Air air = test::air_with_aerosol(aerosol_depth_550);
    std::vector<Light> lights;
    for (const double sun_deg : suns_deg) {
        const sky::Xyz light = test::level_light(air, sun_deg);
        lights.push_back({sun_deg, "level", {light.y, 0.0}, sky::chromaticity(light)});
    }
    return lights;
}

Distance distance(std::span<const Light> monte_carlo, std::span<const Light> other) {
    Distance found;
    std::vector<double> off;
    std::vector<double> colour_off;
    for (std::size_t i = 0; i < monte_carlo.size(); ++i) {
        const Light& a = monte_carlo[i];
        const Light& b = other[i];
        const std::string where = fmt::format("{}, sun {:g}", a.where, a.sun_deg);
        off.push_back(100.0 * std::abs(b.amount.value / a.amount.value - 1.0));
        colour_off.push_back(std::max(std::abs(b.colour.x - a.colour.x), std::abs(b.colour.y - a.colour.y)));
        if (off.back() > found.worst_percent) {
            found.worst_percent = off.back();
            found.worst_where = where;
        }
        if (colour_off.back() > found.worst_colour) {
            found.worst_colour = colour_off.back();
            found.worst_colour_where = where;
        }
    }
    found.median_percent = median(std::move(off));
    found.median_colour = median(std::move(colour_off));
    return found;
}

}  // namespace gloam::montecarlo
