#pragma once

namespace gloam::air {

/// State of the US Standard Atmosphere 1976 at one height.
struct AirState {
    double temperature_k = 0.0;  ///< molecular-scale temperature
    double pressure_pa = 0.0;
    double relative_density = 0.0;  ///< density over its sea-level value
    double relative_density_gradient_per_m = 0.0;
};

/// State at a geometric height above mean sea level. Valid from -5 km to the top; above 86 km the lapse of
/// the uppermost layer goes on (the standard's own upper part differs, where density is below 1e-5 of the
/// ground's). Source: U.S. Standard Atmosphere, 1976 (NOAA-S/T 76-1562), its defining constants.
AirState standard_atmosphere(double height_m);

/// Geometric height at which the standard atmosphere has this pressure; from 100 Pa to 110 kPa.
double pressure_altitude_m(double pressure_pa);

/// Where the model's air ends, metres.
inline constexpr double kTopOfAir_m = 100.0e3;

/// Radius of the spherical Earth of the sky model, metres (mean radius, IUGG).
inline constexpr double kEarthRadius_m = 6371.0e3;

}  // namespace gloam::air
