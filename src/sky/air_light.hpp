#pragma once

#include <vector>

#include "sky/air_ray.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::sky {

/// Light that one step of a view ray sends to the viewer: sunlight scattered once, and light scattered
/// before. W m-2 sr-1 nm-1, sun at 1 au.
struct StepLight {
    FloatSpectrum single{};
    FloatSpectrum diffuse{};
    double sun_zenith_rad = 0.0;  ///< true, at the step's middle
};

/// Light of every step of `ray`, with no cloud anywhere.
void gather_light(const Air& air, const AirRay& ray, const SunAlongRay& sun, std::vector<StepLight>& lights);

/// Clear-sky spectral radiance seen from `height_m`, W m-2 sr-1 nm-1, sun at 1 au. The sun's own disc is not
/// in it. `sun_elevation` is true. Directions at or above the horizon.
Spectrum clear_sky_radiance(const Air& air, double height_m, Angle sun_elevation, Angle elevation,
                            Angle azimuth_from_sun, int steps = 90);

}  // namespace gloam::sky
