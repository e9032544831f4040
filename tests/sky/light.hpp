#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/air_light.hpp"
#include "sky/colour.hpp"
#include "sky/scene.hpp"

namespace gloam::test {

/// Light of the direct beam on a plane facing the sun, lx as Y.
inline sky::Xyz beam_light(const sky::Air& air, double height_m, double sun_elevation_deg) {
    sky::Spectrum light = air.beam.transmission(height_m, zenith_rad(sun_elevation_deg));
    for (std::size_t b = 0; b < sky::kBands; ++b) {
        light[b] *= air.bands->sun_w_m2_nm[b];
    }
    return air.bands->xyz(light);
}

/// Clear sky in one direction, cd m-2 as Y.
inline sky::Xyz sky_light(const sky::Air& air, double sun_elevation_deg, double elevation_deg,
                          double azimuth_deg, int steps = 90) {
    return air.bands->xyz(sky::clear_sky_radiance(air, 0.0, Angle::degrees(sun_elevation_deg),
                                                  Angle::degrees(elevation_deg), Angle::degrees(azimuth_deg),
                                                  steps));
}

/// How finely the sky dome is summed: elevation = 90 deg u^2, crowding at the horizon; half the circle.
struct DomeGrid {
    int elevations = 45;
    int azimuths = 36;
};

/// Light of the clear sky without the sun on a level plane at the ground, lx as Y.
inline sky::Xyz level_sky_light(const sky::Air& air, double sun_elevation_deg, DomeGrid grid = {}) {
    constexpr double kPi = std::numbers::pi;
    sky::Xyz sum;
    for (int i = 0; i < grid.elevations; ++i) {
        const double u = (i + 0.5) / grid.elevations;
        const double elevation = kPi / 2.0 * u * u;
        const double ring =
            kPi * u / grid.elevations * std::sin(elevation) * std::cos(elevation) * 2.0 * kPi / grid.azimuths;
        for (int j = 0; j < grid.azimuths; ++j) {
            const double azimuth_deg = 180.0 * (j + 0.5) / grid.azimuths;
            sum = sum + sky_light(air, sun_elevation_deg, elevation * 180.0 / kPi, azimuth_deg, 60) * ring;
        }
    }
    return sum;
}

/// The same with the sun.
inline sky::Xyz level_light(const sky::Air& air, double sun_elevation_deg, DomeGrid grid = {}) {
    const double apparent_rad = air.beam.columns().apparent_zenith_rad(0.0, zenith_rad(sun_elevation_deg));
    return level_sky_light(air, sun_elevation_deg, grid) +
           beam_light(air, 0.0, sun_elevation_deg) * std::max(0.0, std::cos(apparent_rad));
}

}  // namespace gloam::test
