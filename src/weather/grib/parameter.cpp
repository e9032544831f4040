#include "weather/grib/parameter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

#include "weather/grib/time.hpp"

namespace gloam::weather {
namespace {

constexpr long kEcmwf = 98;
constexpr long kAnyCentre = -1;

constexpr double kPercent = 0.01;
constexpr double kAsIs = 1.0;
constexpr double kGeopotential = 1.0 / 9.80665;  // m2/s2 to geopotential metres (WMO)
constexpr double kMetresOfWater = 1000.0;        // m to kg/m2
constexpr double kOzoneMass = 1.0 / 2.1415e-5;   // kg/m2 to Dobson units (2.687e20 molecules/m2 each)

constexpr std::optional<Level> kAsWritten;
constexpr Level kTotal{.kind = LevelKind::kWholeAtmosphere};
constexpr Level kLow{.kind = LevelKind::kCloudLayer, .band = Band::kLow};
constexpr Level kMiddle{.kind = LevelKind::kCloudLayer, .band = Band::kMiddle};
constexpr Level kHigh{.kind = LevelKind::kCloudLayer, .band = Band::kHigh};
constexpr Level kConvective{.kind = LevelKind::kConvective};
constexpr Level kBase{.kind = LevelKind::kCloudBase};
constexpr Level kTop{.kind = LevelKind::kCloudTop};
constexpr Level kCeiling{.kind = LevelKind::kCloudCeiling};
constexpr Level kSurface{.kind = LevelKind::kSurface};
constexpr Level kAt2m{.kind = LevelKind::kAboveGround, .height_m = 2.0};
constexpr Level kAt10m{.kind = LevelKind::kAboveGround, .height_m = 10.0};

/// A parameter as the tables number it. Edition 1: table version, 0, parameter.
struct Known {
    long table;  ///< edition 2: the discipline
    long category;
    long number;
    long centre;
    GribParameter parameter;
};

constexpr GribParameter of(Quantity quantity, double to_our_unit, const std::optional<Level>& level) {
    return {quantity, to_our_unit, level, false, std::nullopt};
}

/// Total cloud cover, which some centres write for levels, too.
constexpr GribParameter kTotalCover{Quantity::kCloudCover, kPercent, kAsWritten, true, std::nullopt};

constexpr GribParameter at_550_nm(AerosolSpecies species) {
    return {Quantity::kAerosolDepth, kAsIs, kTotal, false, AerosolKind{species, 550e-9, 550e-9}};
}

// GRIB edition 2, code table 4.2; ECMWF's local numbers 0/6/192 to 195 and 0/1/193.
constexpr std::array kEdition2{
    Known{0, 0, 0, kAnyCentre, of(Quantity::kTemperature, kAsIs, kAsWritten)},
    Known{0, 0, 6, kAnyCentre, of(Quantity::kDewPoint, kAsIs, kAsWritten)},
    Known{0, 1, 1, kAnyCentre, of(Quantity::kRelativeHumidity, kPercent, kAsWritten)},
    Known{0, 1, 7, kAnyCentre, of(Quantity::kPrecipitationRate, kAsIs, kAsWritten)},
    Known{0, 1, 8, kAnyCentre, of(Quantity::kPrecipitation, kAsIs, kAsWritten)},
    Known{0, 1, 52, kAnyCentre,
          of(Quantity::kPrecipitation, kAsIs, kAsWritten)},  // a rate, summed over the step
    Known{0, 1, 193, kEcmwf, of(Quantity::kPrecipitation, kMetresOfWater, kSurface)},
    Known{0, 2, 2, kAnyCentre, of(Quantity::kWindEast, kAsIs, kAsWritten)},
    Known{0, 2, 3, kAnyCentre, of(Quantity::kWindNorth, kAsIs, kAsWritten)},
    Known{0, 2, 22, kAnyCentre, of(Quantity::kGust, kAsIs, kAsWritten)},
    Known{0, 3, 0, kAnyCentre, of(Quantity::kPressure, kAsIs, kAsWritten)},
    Known{0, 3, 4, kAnyCentre, of(Quantity::kGeopotentialHeight, kGeopotential, kAsWritten)},
    Known{0, 3, 5, kAnyCentre, of(Quantity::kGeopotentialHeight, kAsIs, kAsWritten)},
    Known{0, 3, 6, kAnyCentre, of(Quantity::kCloudHeight, kAsIs, kAsWritten)},
    Known{0, 6, 1, kAnyCentre, kTotalCover},
    Known{0, 6, 2, kAnyCentre, of(Quantity::kCloudCover, kPercent, kConvective)},
    Known{0, 6, 3, kAnyCentre, of(Quantity::kCloudCover, kPercent, kLow)},
    Known{0, 6, 4, kAnyCentre, of(Quantity::kCloudCover, kPercent, kMiddle)},
    Known{0, 6, 5, kAnyCentre, of(Quantity::kCloudCover, kPercent, kHigh)},
    Known{0, 6, 11, kAnyCentre, of(Quantity::kCloudHeight, kAsIs, kBase)},
    Known{0, 6, 12, kAnyCentre, of(Quantity::kCloudHeight, kAsIs, kTop)},
    Known{0, 6, 13, kAnyCentre, of(Quantity::kCloudHeight, kAsIs, kCeiling)},
    Known{0, 6, 22, kAnyCentre, of(Quantity::kCloudCover, kPercent, kAsWritten)},
    Known{0, 6, 26, kAnyCentre, of(Quantity::kCloudHeight, kAsIs, kConvective)},
    Known{0, 6, 32, kAnyCentre, of(Quantity::kCloudCover, kAsIs, kAsWritten)},
    Known{0, 6, 192, kEcmwf, of(Quantity::kCloudCover, kAsIs, kTotal)},
    Known{0, 6, 193, kEcmwf, of(Quantity::kCloudCover, kAsIs, kLow)},
    Known{0, 6, 194, kEcmwf, of(Quantity::kCloudCover, kAsIs, kMiddle)},
    Known{0, 6, 195, kEcmwf, of(Quantity::kCloudCover, kAsIs, kHigh)},
    Known{0, 7, 6, kAnyCentre, of(Quantity::kCape, kAsIs, kAsWritten)},
    Known{0, 14, 0, kAnyCentre, of(Quantity::kOzoneColumn, kAsIs, kAsWritten)},
    Known{0, 14, 2, kAnyCentre, of(Quantity::kOzoneColumn, kAsIs, kAsWritten)},
    Known{0, 19, 0, kAnyCentre, of(Quantity::kVisibility, kAsIs, kAsWritten)},
    Known{0, 19, 2, kAnyCentre, of(Quantity::kThunder, kPercent, kAsWritten)},
    Known{0, 20, 102, kAnyCentre, of(Quantity::kAerosolDepth, kAsIs, kAsWritten)},
    Known{0, 20, 105, kAnyCentre, of(Quantity::kAerosolExtinction, kAsIs, kAsWritten)},
};

// GRIB edition 1: table 2 (WMO, with NCEP's own numbers from 128 on), ECMWF's tables 128 and 210.
constexpr long kNcep = 7;
constexpr std::array kEdition1{
    Known{2, 0, 1, kAnyCentre, of(Quantity::kPressure, kAsIs, kAsWritten)},
    Known{2, 0, 6, kAnyCentre, of(Quantity::kGeopotentialHeight, kGeopotential, kAsWritten)},
    Known{2, 0, 7, kAnyCentre, of(Quantity::kGeopotentialHeight, kAsIs, kAsWritten)},
    Known{2, 0, 10, kAnyCentre, of(Quantity::kOzoneColumn, kAsIs, kAsWritten)},
    Known{2, 0, 11, kAnyCentre, of(Quantity::kTemperature, kAsIs, kAsWritten)},
    Known{2, 0, 17, kAnyCentre, of(Quantity::kDewPoint, kAsIs, kAsWritten)},
    Known{2, 0, 20, kAnyCentre, of(Quantity::kVisibility, kAsIs, kAsWritten)},
    Known{2, 0, 33, kAnyCentre, of(Quantity::kWindEast, kAsIs, kAsWritten)},
    Known{2, 0, 34, kAnyCentre, of(Quantity::kWindNorth, kAsIs, kAsWritten)},
    Known{2, 0, 52, kAnyCentre, of(Quantity::kRelativeHumidity, kPercent, kAsWritten)},
    Known{2, 0, 59, kAnyCentre, of(Quantity::kPrecipitationRate, kAsIs, kAsWritten)},
    Known{2, 0, 60, kAnyCentre, of(Quantity::kThunder, kPercent, kAsWritten)},
    Known{2, 0, 61, kAnyCentre, of(Quantity::kPrecipitation, kAsIs, kAsWritten)},
    Known{2, 0, 71, kAnyCentre, kTotalCover},
    Known{2, 0, 72, kAnyCentre, of(Quantity::kCloudCover, kPercent, kConvective)},
    Known{2, 0, 73, kAnyCentre, of(Quantity::kCloudCover, kPercent, kLow)},
    Known{2, 0, 74, kAnyCentre, of(Quantity::kCloudCover, kPercent, kMiddle)},
    Known{2, 0, 75, kAnyCentre, of(Quantity::kCloudCover, kPercent, kHigh)},
    Known{2, 0, 157, kNcep, of(Quantity::kCape, kAsIs, kAsWritten)},
    Known{2, 0, 180, kNcep, of(Quantity::kGust, kAsIs, kAsWritten)},
    Known{128, 0, 49, kEcmwf, of(Quantity::kGust, kAsIs, kAt10m)},
    Known{128, 0, 59, kEcmwf, of(Quantity::kCape, kAsIs, kSurface)},
    Known{128, 0, 129, kEcmwf, of(Quantity::kGeopotentialHeight, kGeopotential, kAsWritten)},
    Known{128, 0, 130, kEcmwf, of(Quantity::kTemperature, kAsIs, kAsWritten)},
    Known{128, 0, 156, kEcmwf, of(Quantity::kGeopotentialHeight, kAsIs, kAsWritten)},
    Known{128, 0, 157, kEcmwf, of(Quantity::kRelativeHumidity, kPercent, kAsWritten)},
    Known{128, 0, 164, kEcmwf, of(Quantity::kCloudCover, kAsIs, kTotal)},
    Known{128, 0, 165, kEcmwf, of(Quantity::kWindEast, kAsIs, kAt10m)},
    Known{128, 0, 166, kEcmwf, of(Quantity::kWindNorth, kAsIs, kAt10m)},
    Known{128, 0, 167, kEcmwf, of(Quantity::kTemperature, kAsIs, kAt2m)},
    Known{128, 0, 168, kEcmwf, of(Quantity::kDewPoint, kAsIs, kAt2m)},
    Known{128, 0, 186, kEcmwf, of(Quantity::kCloudCover, kAsIs, kLow)},
    Known{128, 0, 187, kEcmwf, of(Quantity::kCloudCover, kAsIs, kMiddle)},
    Known{128, 0, 188, kEcmwf, of(Quantity::kCloudCover, kAsIs, kHigh)},
    Known{128, 0, 206, kEcmwf, of(Quantity::kOzoneColumn, kOzoneMass, kTotal)},
    Known{128, 0, 228, kEcmwf, of(Quantity::kPrecipitation, kMetresOfWater, kSurface)},
    Known{128, 0, 248, kEcmwf, of(Quantity::kCloudCover, kAsIs, kAsWritten)},
    Known{210, 0, 207, kEcmwf, at_550_nm(AerosolSpecies::kTotal)},
    Known{210, 0, 208, kEcmwf, at_550_nm(AerosolSpecies::kSeaSalt)},
    Known{210, 0, 209, kEcmwf, at_550_nm(AerosolSpecies::kDust)},
    Known{210, 0, 210, kEcmwf, at_550_nm(AerosolSpecies::kOrganic)},
    Known{210, 0, 211, kEcmwf, at_550_nm(AerosolSpecies::kBlackCarbon)},
    Known{210, 0, 212, kEcmwf, at_550_nm(AerosolSpecies::kSulphate)},
};

/// The numbers that name a parameter in its edition.
struct ParameterNumbers {
    long table;
    long category;
    long number;
};

/// The discipline of edition 2 under which ECMWF writes parameters of edition 1 by their table and number.
constexpr long kEcmwfOfEdition1 = 192;

/// Versions 1 to 3 of the WMO's table of edition 1 only added to it.
long wmo_table(long version) {
    return version >= 1 && version <= 3 ? 2 : version;
}

ParameterNumbers numbers_of(const GribField& field) {
    const auto number = [](Octets section, std::size_t offset) {
        return static_cast<long>(big_endian(section, offset, 1));
    };
    return field.edition == 1
               ? ParameterNumbers{wmo_table(number(field.identification, 3)), 0,
                                  number(field.identification, 8)}
               : ParameterNumbers{field.discipline, number(field.product, 9), number(field.product, 10)};
}

std::string number_in_words(int edition, const ParameterNumbers& numbers) {
    return edition == 1 ? fmt::format("parameter {} of table {}", numbers.number, numbers.table)
                        : fmt::format("parameter {}/{}/{}", numbers.table, numbers.category, numbers.number);
}

}  // namespace

long centre_of(const GribField& field) {
    return static_cast<long>(field.edition == 1 ? big_endian(field.identification, 4, 1)
                                                : big_endian(field.identification, 5, 2));
}

tl::expected<GribParameter, NotUsed> parameter_of(const GribField& field, const GribHandle& handle) {
    const ParameterNumbers numbers = numbers_of(field);
    const long centre = centre_of(field);
    const bool moved = field.edition == 2 && centre == kEcmwf && numbers.table == kEcmwfOfEdition1;
    const ParameterNumbers sought = moved ? ParameterNumbers{numbers.category, 0, numbers.number} : numbers;
    const std::span<const Known> table =
        field.edition == 1 || moved ? std::span<const Known>(kEdition1) : kEdition2;
    const auto found = std::ranges::find_if(table, [&](const Known& known) {
        return known.table == sought.table && known.category == sought.category &&
               known.number == sought.number && (known.centre == kAnyCentre || known.centre == centre);
    });
    if (found == table.end()) {
        if (auto unused = unused_time_unit(handle)) {
            return tl::unexpected(*std::move(unused));
        }
        return tl::unexpected(
            NotUsed{fmt::format("{} ({}) is not used", number_in_words(field.edition, numbers),
                                handle.text("name").value_or("unknown"))});
    }
    return found->parameter;
}

}  // namespace gloam::weather
