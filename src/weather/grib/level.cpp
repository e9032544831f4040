#include "weather/grib/level.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace gloam::weather {
namespace {

// GRIB2 code table 4.5 and GRIB1 table 3, NCEP's local entries included.
constexpr long kSurface = 1;
constexpr long kTopOfAtmosphere = 8;
constexpr long kEntireAtmosphere = 10;
constexpr long kIsobaric = 100;
constexpr long kEntireAtmosphereNcep = 200;
constexpr long kBoundaryLayerCloud = 211;
constexpr long kConvectiveCloud = 244;
constexpr long kNoSurface = 255;

// Cover beyond these is not met, and the standard atmosphere is not asked for it.
constexpr double kLeastPressure_pa = 100.0;
constexpr double kMostPressure_pa = 110.0e3;

std::optional<double> pressure_of(const GribHandle& handle, int edition) {
    if (edition == 1) {
        const auto level_hpa = handle.integer("level");
        return level_hpa ? std::optional(100.0 * static_cast<double>(*level_hpa)) : std::nullopt;
    }
    const auto scaled = handle.integer("scaledValueOfFirstFixedSurface");
    const auto factor = handle.integer("scaleFactorOfFirstFixedSurface");
    return scaled && factor
               ? std::optional(static_cast<double>(*scaled) * std::pow(10.0, -static_cast<double>(*factor)))
               : std::nullopt;
}

std::optional<Level> pressure_level(const GribHandle& handle, int edition) {
    const double pressure_pa = pressure_of(handle, edition).value_or(0.0);
    const bool possible = pressure_pa >= kLeastPressure_pa && pressure_pa <= kMostPressure_pa;
    return possible ? std::optional(Level{.kind = LevelKind::kPressure, .pressure_pa = pressure_pa})
                    : std::nullopt;
}

std::optional<Level> used_level(const GribHandle& handle, int edition, const GribParameter& parameter) {
    const bool first_edition = edition == 1;
    const long type = handle.integer(first_edition ? "indicatorOfTypeOfLevel" : "typeOfFirstFixedSurface")
                          .value_or(kNoSurface);
    const long second =
        first_edition ? kNoSurface : handle.integer("typeOfSecondFixedSurface").value_or(kNoSurface);
    if (type == kIsobaric && second == kNoSurface && !parameter.column_total) {
        return pressure_level(handle, edition);
    }
    if (parameter.pressure_only) {
        return std::nullopt;
    }
    if (type == kConvectiveCloud) {
        return Level{.kind = LevelKind::kConvective};
    }
    if (type == kBoundaryLayerCloud) {
        return Level{.kind = LevelKind::kBoundaryLayer};
    }
    const bool whole = type == kEntireAtmosphere || type == kEntireAtmosphereNcep ||
                       (type == kSurface && (second == kTopOfAtmosphere || parameter.column_total));
    return whole ? std::optional(Level{.kind = LevelKind::kWholeAtmosphere}) : std::nullopt;
}

}  // namespace

tl::expected<Level, NotUsed> level_of(const GribHandle& handle, int edition, const GribParameter& parameter) {
    if (const auto level = used_level(handle, edition, parameter)) {
        return *level;
    }
    return tl::unexpected(NotUsed{
        fmt::format("{} at level {} ({}) is not used", handle.text("name").value_or("the parameter"),
                    handle.text("level").value_or("?"), handle.text("typeOfLevel").value_or("unknown"))});
}

}  // namespace gloam::weather
