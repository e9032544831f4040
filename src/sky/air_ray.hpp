#pragma once

#include <vector>

#include "sky/atmosphere.hpp"
#include "sky/beam.hpp"
#include "sky/harmonics.hpp"

namespace gloam::sky {

/// One step of a straight ray through the air.
struct AirStep {
    double from_m = 0.0;  ///< path from the ray's start
    double to_m = 0.0;
    double middle_m = 0.0;
    double height_m = 0.0;         ///< of the middle
    PerSpecies density{};          ///< at the middle
    FloatSpectrum transmission{};  ///< mean over the step, back to the start
    double cos_zenith = 0.0;       ///< of the ray at the middle
    Harmonics harmonics{};         ///< of the ray's direction there, by its zenith angle
    /// By degree: what scatters per metre, each species weighed with that term of its phase function.
    FloatSpectrum scattering_per_m[kDegrees]{};
};

/// A straight ray from a point to the top of the air or the ground, with what it needs to gather light.
/// Refraction of the view ray is left out: it shifts features below 2 deg of elevation by up to 0.5 deg.
struct AirRay {
    double start_radius_m = 0.0;  ///< from the Earth's centre
    double cos_zenith = 0.0;
    double sin_zenith = 0.0;
    bool meets_ground = false;
    double length_m = 0.0;
    FloatSpectrum end_transmission{};
    std::vector<AirStep> steps;

    double radius_at(double path_m) const;
    /// Transmission from `path_m` back to the start, between the means of the neighbouring steps.
    void transmission_at(double path_m, FloatSpectrum& transmission) const;
};

/// Steps lie at s = s_max (i/n)^2: short near the start.
AirRay cast_ray(double height_m, double cos_zenith, int steps, const Optics& optics,
                double aerosol_scale_height_m);

/// Path to the far (or near) crossing of a shell, from radius `radius_m` in direction `cos_zenith`.
double path_to_radius_m(double radius_m, double cos_zenith, double target_radius_m, bool far_side);

/// Where the sun stands along a straight ray: r cos(chi) grows linearly with the path.
struct SunAlongRay {
    double start_m = 0.0;  ///< r cos(chi) at the start
    double cosine = 0.0;   ///< between ray and sun, constant along the ray

    double zenith_rad(double path_m, double radius_m) const;
    /// Cosine of the azimuth between ray and sun at a point where the ray's zenith angle has this cosine; 0
    /// where one of them stands in the zenith and there is no azimuth.
    double azimuth_cosine(double ray_cos_zenith, double zenith_rad) const;
};
SunAlongRay sun_along(const AirRay& ray, double sun_zenith_rad, double azimuth_from_sun_rad);

}  // namespace gloam::sky
