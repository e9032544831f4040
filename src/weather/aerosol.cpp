#include "weather/aerosol.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>

namespace gloam::weather {

std::string to_text(const AerosolKind& aerosol) {
    static constexpr std::array<std::string_view, 8> kNames{"all aerosol", "dust",           "sea salt",
                                                            "sulphate",    "organic matter", "black carbon",
                                                            "nitrate",     "ammonium"};
    const std::string_view name = kNames[static_cast<std::size_t>(aerosol.species)];
    const double from_nm = aerosol.wavelength_from_m * 1e9;
    const double to_nm = aerosol.wavelength_to_m * 1e9;
    return from_nm == to_nm ? fmt::format("{}, {:.0f} nm", name, to_nm)
                            : fmt::format("{}, {:.0f} to {:.0f} nm", name, from_nm, to_nm);
}

}  // namespace gloam::weather
