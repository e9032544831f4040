#include "weather/grib/aerosol.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace gloam::weather {
namespace {

// WMO common code table C-14 (GRIB2 code table 4.230).
constexpr std::array<std::pair<long, AerosolSpecies>, 8> kSpecies{{{62000, AerosolSpecies::kTotal},
                                                                   {62001, AerosolSpecies::kDust},
                                                                   {62003, AerosolSpecies::kAmmonium},
                                                                   {62004, AerosolSpecies::kNitrate},
                                                                   {62006, AerosolSpecies::kSulphate},
                                                                   {62008, AerosolSpecies::kSeaSalt},
                                                                   {62009, AerosolSpecies::kBlackCarbon},
                                                                   {62010, AerosolSpecies::kOrganic}}};

// GRIB2 code table 4.91: intervals between two limits, with or without the limits themselves.
constexpr std::array kBetween{2L, 7L, 10L};
constexpr long kEqualToFirst = 11;

std::optional<double> wavelength_m(const GribHandle& handle, const char* value_key, const char* factor_key) {
    const auto value = handle.integer(value_key);
    const auto factor = handle.integer(factor_key);
    const double metres =
        value && factor ? static_cast<double>(*value) * std::pow(10.0, -static_cast<double>(*factor)) : 0.0;
    return metres >= 1e-7 && metres <= 1e-4 ? std::optional(metres) : std::nullopt;
}

}  // namespace

tl::expected<AerosolKind, NotUsed> aerosol_of(const GribHandle& handle) {
    const long type = handle.integer("constituentType").value_or(-1);
    const auto* const species =
        std::ranges::find_if(kSpecies, [type](const auto& known) { return known.first == type; });
    if (species == kSpecies.end()) {
        return tl::unexpected(NotUsed{fmt::format("aerosol type {} is not used", type)});
    }
    const long interval = handle.integer("typeOfWavelengthInterval").value_or(-1);
    const auto from = wavelength_m(handle, "scaledValueOfFirstWavelength", "scaleFactorOfFirstWavelength");
    const auto to = interval == kEqualToFirst ? from
                                              : wavelength_m(handle, "scaledValueOfSecondWavelength",
                                                             "scaleFactorOfSecondWavelength");
    const bool between = interval == kEqualToFirst || std::ranges::find(kBetween, interval) != kBetween.end();
    if (!between || !from || !to || *from > *to) {
        return tl::unexpected(NotUsed{fmt::format("wavelength interval of type {} is not used", interval)});
    }
    return AerosolKind{species->second, *from, *to};
}

}  // namespace gloam::weather
