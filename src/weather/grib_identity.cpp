#include "weather/grib_identity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace gloam::weather {
namespace {

using Trouble = tl::unexpected<std::string>;

constexpr double kStandardGravity_m_s2 = 9.80665;  // WMO: geopotential metres
constexpr double kPercent = 0.01;
constexpr double kFraction = 1.0;
constexpr long kEcmwf = 98;
constexpr long kNcep = 7;
constexpr long kAnyCentre = -1;

// ---- parameter

/// A parameter that is used, as the tables number it. Edition 1: table version, parameter.
struct Parameter {
    long edition;
    long discipline_or_table;
    long category;
    long number;
    long centre;
    Quantity quantity;
    double to_our_unit;  ///< unless the decoder's own table says "%" or a fraction
    bool pressure_only;  ///< means something else, or nothing, on other levels
    bool column_total;   ///< a total by definition, written at the surface
};

constexpr auto kCover = Quantity::kCloudCover;
constexpr auto kHeight = Quantity::kGeopotentialHeight;

// GRIB2 code table 4.2 (0/6, 0/3), ECMWF local 0/6/192; GRIB1 table 2 (WMO, NCEP) and ECMWF table 128.
constexpr std::array<Parameter, 13> kParameters{{
    {2, 0, 6, 1, kAnyCentre, kCover, kPercent, false, false},
    {2, 0, 6, 22, kAnyCentre, kCover, kPercent, true, false},
    {2, 0, 6, 32, kAnyCentre, kCover, kFraction, true, false},
    {2, 0, 6, 192, kEcmwf, kCover, kFraction, false, true},
    {2, 0, 3, 5, kAnyCentre, kHeight, 1.0, true, false},
    {2, 0, 3, 4, kAnyCentre, kHeight, 1.0 / kStandardGravity_m_s2, true, false},
    {1, 2, 0, 71, kAnyCentre, kCover, kPercent, false, false},
    {1, 2, 0, 7, kAnyCentre, kHeight, 1.0, true, false},
    {1, 2, 0, 6, kAnyCentre, kHeight, 1.0 / kStandardGravity_m_s2, true, false},
    {1, 128, 0, 248, kEcmwf, kCover, kFraction, true, false},
    {1, 128, 0, 164, kEcmwf, kCover, kFraction, false, true},
    {1, 128, 0, 156, kEcmwf, kHeight, 1.0, true, false},
    {1, 128, 0, 129, kEcmwf, kHeight, 1.0 / kStandardGravity_m_s2, true, false},
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

double unit_factor(const GribHandle& handle, const Parameter& parameter) {
    if (parameter.quantity != kCover) {
        return parameter.to_our_unit;
    }
    const std::string units = handle.text("units").value_or("");
    if (units == "%") {
        return kPercent;
    }
    return units == "(0 - 1)" ? kFraction : parameter.to_our_unit;
}

std::optional<Parameter> parameter_of(const GribHandle& handle, int edition) {
    const ParameterNumbers numbers = numbers_of(handle, edition);
    const long centre = handle.integer("centre").value_or(kAnyCentre);
    const auto is_it = [&](const Parameter& candidate) {
        return candidate.edition == edition && candidate.discipline_or_table == numbers.discipline_or_table &&
               candidate.category == numbers.category && candidate.number == numbers.number &&
               (candidate.centre == kAnyCentre || candidate.centre == centre);
    };
    const auto* const found = std::ranges::find_if(kParameters, is_it);
    if (found == kParameters.end()) {
        return std::nullopt;
    }
    Parameter parameter = *found;
    parameter.to_our_unit = unit_factor(handle, parameter);
    return parameter;
}

std::string unused_parameter(const GribHandle& handle, int edition) {
    const ParameterNumbers numbers = numbers_of(handle, edition);
    const std::string name = handle.text("name").value_or("unknown");
    return edition == 1 ? fmt::format("parameter {} of table {} ({}) is not used", numbers.number,
                                      numbers.discipline_or_table, name)
                        : fmt::format("parameter {}/{}/{} ({}) is not used", numbers.discipline_or_table,
                                      numbers.category, numbers.number, name);
}

// ---- level

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
    return possible ? std::optional(Level{LevelKind::kPressure, pressure_pa}) : std::nullopt;
}

std::optional<Level> level_of(const GribHandle& handle, int edition, const Parameter& parameter) {
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
        return Level{LevelKind::kConvective, 0.0};
    }
    if (type == kBoundaryLayerCloud) {
        return Level{LevelKind::kBoundaryLayer, 0.0};
    }
    const bool whole = type == kEntireAtmosphere || type == kEntireAtmosphereNcep ||
                       (type == kSurface && (second == kTopOfAtmosphere || parameter.column_total));
    return whole ? std::optional(Level{LevelKind::kWholeAtmosphere, 0.0}) : std::nullopt;
}

std::string unused_level(const GribHandle& handle) {
    return fmt::format("{} at level {} ({}) is not used", handle.text("name").value_or("the parameter"),
                       handle.text("level").value_or("?"), handle.text("typeOfLevel").value_or("unknown"));
}

// ---- time

std::optional<TimeKind> time_kind_of(const std::string& step_type) {
    static constexpr std::array<std::pair<std::string_view, TimeKind>, 5> kKinds{
        {{"instant", TimeKind::kInstant},
         {"avg", TimeKind::kAverage},
         {"accum", TimeKind::kAccumulated},
         {"max", TimeKind::kMaximum},
         {"min", TimeKind::kMinimum}}};
    const auto* const found =
        std::ranges::find_if(kKinds, [&step_type](const auto& kind) { return kind.first == step_type; });
    return found == kKinds.end() ? std::nullopt : std::optional(found->second);
}

std::optional<Instant> run_time_of(const GribHandle& handle) {
    const long date = handle.integer("dataDate").value_or(0);   // yyyymmdd
    const long time = handle.integer("dataTime").value_or(-1);  // hhmm
    const CivilDate day{std::chrono::year(static_cast<int>(date / 10000)),
                        std::chrono::month(static_cast<unsigned>(date / 100 % 100)),
                        std::chrono::day(static_cast<unsigned>(date % 100))};
    if (date < 19000101 || date > 29991231 || !day.ok() || time < 0 || time > 2359 || time % 100 > 59) {
        return std::nullopt;
    }
    return std::chrono::sys_days(day) + std::chrono::hours(time / 100) + std::chrono::minutes(time % 100);
}

constexpr long kMostMinutes = 2L * 366 * 24 * 60;  // two years: beyond any forecast of weather

std::optional<std::chrono::minutes> step_of(const GribHandle& handle, const char* key) {
    const auto minutes = handle.integer(key);
    const bool possible = minutes && *minutes >= 0 && *minutes <= kMostMinutes;
    return possible ? std::optional(std::chrono::minutes(*minutes)) : std::nullopt;
}

// ---- member and source

/// Edition 2 product templates of plain fields and members, at a time or over a span; others are means,
/// spreads, probabilities and the like.
bool is_plain_product(const GribHandle& handle) {
    static constexpr std::array<long, 4> kPlain{0, 1, 8, 11};
    return std::ranges::find(kPlain, handle.integer("productDefinitionTemplateNumber").value_or(-1)) !=
           kPlain.end();
}

/// A deterministic run may carry number 0 of 0.
std::optional<int> member_of(const GribHandle& handle) {
    const auto number = handle.integer("perturbationNumber");
    const long members = handle.integer("numberOfForecastsInEnsemble").value_or(0);
    return number && (*number > 0 || members > 0) ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

std::string source_of(const GribHandle& handle) {
    const long model = handle.integer("generatingProcessIdentifier").value_or(-1);
    if (handle.integer("centre").value_or(kAnyCentre) == kNcep && (model == 81 || model == 96)) {
        return "NCEP GFS";
    }
    const auto described = handle.text("centreDescription");
    return described ? *described : fmt::format("centre {}", handle.text("centre").value_or("unknown"));
}

}  // namespace

tl::expected<std::variant<GribIdentity, NotUsed>, std::string> identity_of(const GribHandle& handle,
                                                                           int edition) {
    const auto parameter = parameter_of(handle, edition);
    if (!parameter) {
        return NotUsed{unused_parameter(handle, edition)};
    }
    if (edition == 2 && !is_plain_product(handle)) {
        return NotUsed{fmt::format("product template 4.{} (no single run or member) is not used",
                                   handle.integer("productDefinitionTemplateNumber").value_or(-1))};
    }
    const auto level = level_of(handle, edition, *parameter);
    if (!level) {
        return NotUsed{unused_level(handle)};
    }
    const std::string step_type = handle.text("stepType").value_or("unknown");
    const auto kind = time_kind_of(step_type);
    if (!kind) {
        return NotUsed{fmt::format("step type {} is not used", step_type)};
    }
    const auto run = run_time_of(handle);
    const auto start = step_of(handle, "startStep");
    const auto end = step_of(handle, "endStep");
    if (!run || !start || !end || *start > *end) {
        return Trouble("the date or the forecast step makes no sense");
    }
    return GribIdentity{.quantity = parameter->quantity,
                        .to_our_unit = parameter->to_our_unit,
                        .level = *level,
                        .time_kind = *kind,
                        .run_time = *run,
                        .from = *run + (*kind == TimeKind::kInstant ? *end : *start),
                        .to = *run + *end,
                        .member = member_of(handle),
                        .source = source_of(handle)};
}

}  // namespace gloam::weather
