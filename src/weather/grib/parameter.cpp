#include "weather/grib/parameter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace gloam::weather {
namespace {

constexpr double kStandardGravity_m_s2 = 9.80665;  // WMO: geopotential metres
constexpr double kPercent = 0.01;
constexpr double kFraction = 1.0;
constexpr long kEcmwf = 98;
constexpr long kAnyCentre = -1;
constexpr auto kCover = Quantity::kCloudCover;
constexpr auto kHeight = Quantity::kGeopotentialHeight;

/// A parameter as the tables number it. Edition 1: table version, parameter.
struct Known {
    long edition;
    long discipline_or_table;
    long category;
    long number;
    long centre;
    GribParameter parameter;  ///< its unit unless the decoder's own table says "%" or a fraction
};

// GRIB2 code table 4.2 (0/6, 0/3), ECMWF local 0/6/192; GRIB1 table 2 (WMO, NCEP) and ECMWF table 128.
constexpr std::array<Known, 13> kKnown{{
    {2, 0, 6, 1, kAnyCentre, {kCover, kPercent, false, false}},
    {2, 0, 6, 22, kAnyCentre, {kCover, kPercent, true, false}},
    {2, 0, 6, 32, kAnyCentre, {kCover, kFraction, true, false}},
    {2, 0, 6, 192, kEcmwf, {kCover, kFraction, false, true}},
    {2, 0, 3, 5, kAnyCentre, {kHeight, 1.0, true, false}},
    {2, 0, 3, 4, kAnyCentre, {kHeight, 1.0 / kStandardGravity_m_s2, true, false}},
    {1, 2, 0, 71, kAnyCentre, {kCover, kPercent, false, false}},
    {1, 2, 0, 7, kAnyCentre, {kHeight, 1.0, true, false}},
    {1, 2, 0, 6, kAnyCentre, {kHeight, 1.0 / kStandardGravity_m_s2, true, false}},
    {1, 128, 0, 248, kEcmwf, {kCover, kFraction, true, false}},
    {1, 128, 0, 164, kEcmwf, {kCover, kFraction, false, true}},
    {1, 128, 0, 156, kEcmwf, {kHeight, 1.0, true, false}},
    {1, 128, 0, 129, kEcmwf, {kHeight, 1.0 / kStandardGravity_m_s2, true, false}},
}};

/// The numbers that name a parameter in its edition; -1 where the message has none.
struct ParameterNumbers {
    long discipline_or_table;
    long category;
    long number;
};

ParameterNumbers numbers_of(const GribHandle& handle, int edition) {
    const auto number = [&handle](const char* key) { return handle.integer(key).value_or(-1); };
    return edition == 1 ? ParameterNumbers{number("table2Version"), 0, number("indicatorOfParameter")}
                        : ParameterNumbers{number("discipline"), number("parameterCategory"),
                                           number("parameterNumber")};
}

double unit_factor(const GribHandle& handle, const GribParameter& parameter) {
    if (parameter.quantity != kCover) {
        return parameter.to_our_unit;
    }
    const std::string units = handle.text("units").value_or("");
    if (units == "%") {
        return kPercent;
    }
    return units == "(0 - 1)" ? kFraction : parameter.to_our_unit;
}

NotUsed unused(const GribHandle& handle, int edition, const ParameterNumbers& numbers) {
    const std::string name = handle.text("name").value_or("unknown");
    return {edition == 1 ? fmt::format("parameter {} of table {} ({}) is not used", numbers.number,
                                       numbers.discipline_or_table, name)
                         : fmt::format("parameter {}/{}/{} ({}) is not used", numbers.discipline_or_table,
                                       numbers.category, numbers.number, name)};
}

}  // namespace

tl::expected<GribParameter, NotUsed> parameter_of(const GribHandle& handle, int edition) {
    const ParameterNumbers numbers = numbers_of(handle, edition);
    const long centre = handle.integer("centre").value_or(kAnyCentre);
    const auto is_it = [&](const Known& known) {
        return known.edition == edition && known.discipline_or_table == numbers.discipline_or_table &&
               known.category == numbers.category && known.number == numbers.number &&
               (known.centre == kAnyCentre || known.centre == centre);
    };
    const auto* const found = std::ranges::find_if(kKnown, is_it);
    if (found == kKnown.end()) {
        return tl::unexpected(unused(handle, edition, numbers));
    }
    GribParameter parameter = found->parameter;
    parameter.to_our_unit = unit_factor(handle, parameter);
    return parameter;
}

}  // namespace gloam::weather
