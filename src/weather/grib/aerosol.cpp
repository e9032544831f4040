#include "weather/grib/aerosol.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "weather/grib/product.hpp"

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

// Offsets in section 4 by these templates.
constexpr std::size_t kType = 11;
constexpr std::size_t kInterval = 24;
constexpr std::size_t kFirstWavelength = 25;
constexpr std::size_t kSecondWavelength = 30;

std::optional<double> wavelength_m(Octets product, std::size_t offset) {
    const double metres = scaled_number(product, offset);
    return metres >= 1e-7 && metres <= 1e-4 ? std::optional(metres) : std::nullopt;
}

}  // namespace

tl::expected<AerosolKind, NotUsed> aerosol_of(const GribField& field) {
    const auto type = static_cast<long>(big_endian(field.product, kType, 2));
    const auto* const species =
        std::ranges::find_if(kSpecies, [type](const auto& known) { return known.first == type; });
    if (species == kSpecies.end()) {
        return tl::unexpected(NotUsed{fmt::format("aerosol type {} is not used", type)});
    }
    const auto interval = static_cast<long>(big_endian(field.product, kInterval, 1));
    const auto from = wavelength_m(field.product, kFirstWavelength);
    const auto to = interval == kEqualToFirst ? from : wavelength_m(field.product, kSecondWavelength);
    const bool between = interval == kEqualToFirst || std::ranges::find(kBetween, interval) != kBetween.end();
    if (!between || !from || !to || *from > *to) {
        return tl::unexpected(NotUsed{fmt::format("wavelength interval of type {} is not used", interval)});
    }
    return AerosolKind{species->second, *from, *to};
}

}  // namespace gloam::weather
