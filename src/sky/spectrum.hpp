#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "base/error.hpp"
#include "sky/colour.hpp"

namespace gloam::sky {

/// The sky is computed in 20 bands of 20 nm, 380 to 780 nm. Against 40 bands of 10 nm the beam differs by 1.5
/// % and its chromaticity by 0.001 (docs/sky.md).
inline constexpr std::size_t kBands = 20;
inline constexpr double kFirstEdge_nm = 380.0;
inline constexpr double kBandWidth_nm = 20.0;

/// One value a band; what it measures is said by the name of the variable.
using Spectrum = std::array<double, kBands>;

/// What a band means: its light above the air, how the eye weighs it, how ozone absorbs it.
struct Bands {
    Spectrum centre_nm{};
    Spectrum sun_w_m2_nm{};  ///< extraterrestrial irradiance at 1 au, band mean
    Spectrum xbar{};         ///< CIE 1931 2-degree functions, averaged over the band weighted with the sun
    Spectrum ybar{};
    Spectrum zbar{};
    Spectrum ozone_m2{};        ///< absorption cross-section at 233 K, weighted likewise
    Spectrum rayleigh_depth{};  ///< vertical optical depth from sea level, weighted likewise

    /// CIE XYZ of a spectral density (per nm): radiance in W m-2 sr-1 nm-1 gives Y in cd m-2, irradiance
    /// gives lx.
    Xyz xyz(const Spectrum& density) const;
};

/// Makes the bands from the three published tables (CSV text): ASTM G173 extraterrestrial spectrum, CIE 1931
/// observer, Serdyuchenko ozone cross-sections.
Result<Bands> make_bands(std::string_view solar_csv, std::string_view observer_csv,
                         std::string_view ozone_csv);

/// Vertical Rayleigh optical depth of the whole air from sea level at 45 deg latitude.
/// Source: Bodhaine, Wood, Dutton, Slusser 1999, J. Atmos. Oceanic Technol. 16, 1854, eq. 30. Range 250 to
/// 850 nm.
double rayleigh_optical_depth(double wavelength_nm);

}  // namespace gloam::sky
