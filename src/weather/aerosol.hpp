#pragma once

#include <string>

namespace gloam::weather {

/// Aerosol by species, WMO common code table C-14 as far as forecasts carry it.
enum class AerosolSpecies { kTotal, kDust, kSeaSalt, kSulphate, kOrganic, kBlackCarbon, kNitrate, kAmmonium };

/// Which aerosol a field tells of, and at which light.
struct AerosolKind {
    AerosolSpecies species = AerosolSpecies::kTotal;
    double wavelength_from_m = 0.0;  ///< equals `wavelength_to_m` for a single wavelength
    double wavelength_to_m = 0.0;

    auto operator<=>(const AerosolKind&) const = default;
};

/// "dust, 545 to 565 nm".
std::string to_text(const AerosolKind& aerosol);

}  // namespace gloam::weather
