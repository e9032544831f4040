#pragma once

#include <array>
#include <compare>
#include <cstddef>

#include "air/ray.hpp"
#include "sky/harmonics.hpp"
#include "sky/spectrum.hpp"

namespace gloam::sky {

/// What the clear air holds, in amounts that a forecast or a climatology can give. The defaults are the
/// atmosphere in which the reference numbers of docs/sky.md are stated.
struct Atmosphere {
    double ozone_du = 320.0;                 ///< column, Dobson units
    double aerosol_depth_550 = 0.10;         ///< tropospheric aerosol optical depth at 550 nm, dust apart
    double aerosol_angstrom = 1.3;           ///< exponent: depth ~ wavelength^-a
    double aerosol_scale_height_m = 1500.0;  ///< e-folding height of the aerosol, 800 to 2500 m
    double dust_depth_550 = 0.0;             ///< mineral dust between 1 and 5 km
    double sulphate_depth_550 = 0.004;       ///< stratospheric sulphate around 20 km
    double sulphate_angstrom = 1.6;
    double ground_albedo = 0.15;  ///< Lambertian

    auto operator<=>(const Atmosphere&) const = default;
};

/// The species of the air, each with one vertical profile.
enum class Species : std::size_t { kRayleigh, kOzone, kAerosol, kDust, kSulphate };
inline constexpr std::size_t kSpecies = 5;
using PerSpecies = std::array<double, kSpecies>;

/// Density of each species per metre at a height; each profile's vertical column is 1.
PerSpecies densities_per_m(double height_m, double aerosol_scale_height_m);
/// The profile of one species as a function of height.
air::Profile profile_of(Species species, double aerosol_scale_height_m);

/// Optics of an atmosphere band by band.
struct Optics {
    std::array<Spectrum, kSpecies> depth{};       ///< vertical optical depth (extinction)
    std::array<Spectrum, kSpecies> scattering{};  ///< single-scattering albedo times depth
};
Optics optics_of(const Atmosphere& atmosphere, const Bands& bands);

/// Phase function of each species at scattering cosine `cosine`; mean over the sphere 1. Ozone does not
/// scatter (0).
PerSpecies phase_functions(double cosine);

/// The phase functions' Legendre series, by degree l: (2l + 1) times the mean over the sphere of phase
/// function times Legendre polynomial. Ozone does not scatter (0).
const std::array<PerSpecies, kDegrees>& phase_terms();

/// Henyey-Greenstein phase function, mean over the sphere 1.
double henyey_greenstein(double asymmetry, double cosine);

}  // namespace gloam::sky
