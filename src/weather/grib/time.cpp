#include "weather/grib/time.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <string_view>
#include <utility>

namespace gloam::weather {
namespace {

// Code table 4.4 (edition 1: table 4): minutes, hours, days, 3, 6 and 12 hours mean the same in both
// editions.
constexpr std::array<std::pair<long, long>, 6> kUnits_min{
    {{0, 1}, {1, 60}, {2, 24 * 60}, {10, 180}, {11, 360}, {12, 720}}};

/// Minutes of a unit of time; absent if it is not used.
std::optional<long> minutes_of(long unit) {
    const auto* const found =
        std::ranges::find_if(kUnits_min, [unit](const auto& known) { return known.first == unit; });
    return found == kUnits_min.end() ? std::nullopt : std::optional(found->second);
}

NotUsed unused_unit(long unit) {
    return {fmt::format("unit of time {} is not used", unit)};
}

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

/// A date that makes sense, at an hour and minute that do.
std::optional<Instant> run_time_of(long year, long month, long day, long hour, long minute) {
    const CivilDate date{std::chrono::year(static_cast<int>(year)),
                         std::chrono::month(static_cast<unsigned>(month)),
                         std::chrono::day(static_cast<unsigned>(day))};
    if (year < 1900 || year > 2999 || !date.ok() || hour < 0 || hour > 23 || minute < 0 || minute > 59) {
        return std::nullopt;
    }
    return std::chrono::sys_days(date) + std::chrono::hours(hour) + std::chrono::minutes(minute);
}

/// Octets 13 to 17 (year of the century, month, day, hour, minute) and 25 (century).
std::optional<Instant> run_time_of_edition1(Octets identification) {
    const auto at = [identification](std::size_t offset) {
        return static_cast<long>(big_endian(identification, offset, 1));
    };
    return run_time_of((at(24) - 1) * 100 + at(12), at(13), at(14), at(15), at(16));
}

std::optional<Instant> run_time_of_edition2(Octets identification) {
    const auto at = [identification](std::size_t offset, std::size_t count) {
        return static_cast<long>(big_endian(identification, offset, count));
    };
    return run_time_of(at(12, 2), at(14, 1), at(15, 1), at(16, 1), at(17, 1));
}

constexpr long kMostMinutes = 2L * 366 * 24 * 60;  // two years: beyond any forecast of weather

std::optional<std::chrono::minutes> step_of(std::optional<long> minutes) {
    const bool possible = minutes && *minutes >= 0 && *minutes <= kMostMinutes;
    return possible ? std::optional(std::chrono::minutes(*minutes)) : std::nullopt;
}

TimesResult times_from(TimeKind kind, std::optional<Instant> run, std::optional<long> start_minutes,
                       std::optional<long> end_minutes) {
    const auto start = step_of(start_minutes);
    const auto end = step_of(end_minutes);
    if (!run || !start || !end || *start > *end) {
        return tl::unexpected<std::string>("the date or the forecast step makes no sense");
    }
    return GribTimes{kind, *run, *run + *start, *run + *end};
}

/// Minutes from the run to the instant a product of edition 1 stands for, where its time range indicator
/// (code table 5) says an instant: P1 in octet 19 (0), the run itself (1), or P1 in octets 19 and 20 (10).
std::optional<long> instant_step_of_edition1(Octets identification) {
    const auto unit_min = minutes_of(static_cast<long>(big_endian(identification, 17, 1)));
    const auto units = [identification](std::size_t count) {
        return static_cast<long>(big_endian(identification, 18, count));
    };
    switch (big_endian(identification, 20, 1)) {
        case 0:
            return unit_min ? std::optional(units(1) * *unit_min) : std::nullopt;
        case 1:
            return 0;
        case 10:
            return unit_min ? std::optional(units(2) * *unit_min) : std::nullopt;
        default:
            return std::nullopt;
    }
}

/// Start and end of "0-180", or of "180" both; absent if it is neither.
std::pair<std::optional<long>, std::optional<long>> steps_in(std::string_view range) {
    const auto number = [](std::string_view text) {
        long value = 0;
        const auto [stop, trouble] = std::from_chars(text.data(), text.data() + text.size(), value);
        return trouble == std::errc() && stop == text.data() + text.size() ? std::optional(value)
                                                                           : std::nullopt;
    };
    const std::size_t dash = range.find('-');
    const auto end = number(dash == std::string_view::npos ? range : range.substr(dash + 1));
    return {dash == std::string_view::npos ? end : number(range.substr(0, dash)), end};
}

NotUsed unused_step_type(const std::string& step_type) {
    return {fmt::format("step type {} is not used", step_type)};
}

/// How the values of a span come about (code tables 4.10 and 4.11); absent if they are not used. A mean or a
/// sum over the forecasts of several runs is none over a span of time.
std::optional<TimeKind> time_kind_of(const GribProduct::Span& span) {
    constexpr long kOverForecastTimes = 2;
    constexpr long kOverForecastTimesOfOneEnd = 3;
    const bool over_times = span.increment == kOverForecastTimes;
    switch (span.process) {
        case 0:
            return over_times || span.increment == kOverForecastTimesOfOneEnd
                       ? std::optional(TimeKind::kAverage)
                       : std::nullopt;
        case 1:
            return over_times ? std::optional(TimeKind::kAccumulated) : std::nullopt;
        case 2:
            return TimeKind::kMaximum;
        case 3:
            return TimeKind::kMinimum;
        default:
            return std::nullopt;
    }
}

}  // namespace

std::optional<NotUsed> unused_time_unit(const GribHandle& handle) {
    for (const char* key : {"indicatorOfUnitOfTimeRange", "indicatorOfUnitForTimeRange"}) {
        const auto unit = handle.integer(key);
        if (unit && !minutes_of(*unit)) {
            return unused_unit(*unit);
        }
    }
    return std::nullopt;
}

std::optional<NotUsed> unused_time_unit_of_edition1(const GribField& field) {
    const auto unit = static_cast<long>(big_endian(field.identification, 17, 1));
    return minutes_of(unit) ? std::nullopt : std::optional(unused_unit(unit));
}

TimesResult times_of_edition1(const GribField& field, GribHandle& handle) {
    const auto run = run_time_of_edition1(field.identification);
    if (const auto step = instant_step_of_edition1(field.identification)) {
        return times_from(TimeKind::kInstant, run, step, step);
    }
    handle.set("stepUnits", "m");  // before any step is read: the decoder would round minutes to hours
    const std::string step_type = handle.text("stepType").value_or("unknown");
    const auto kind = time_kind_of(step_type);
    if (!kind) {
        return unused_step_type(step_type);
    }
    const auto [start, end] = steps_in(handle.text("stepRange").value_or(""));
    return times_from(*kind, run, start, end);
}

TimesResult times_of_edition2(const GribField& field, const GribProduct& product, const GribHandle& handle) {
    const auto unit = minutes_of(product.time_unit);
    if (!unit) {
        return unused_unit(product.time_unit);
    }
    const auto run = run_time_of_edition2(field.identification);
    const std::int64_t start = product.forecast_time * *unit;
    if (!product.span) {
        return times_from(TimeKind::kInstant, run, start, start);
    }
    if (product.span->ranges != 1) {
        return NotUsed{fmt::format("a field over {} time ranges is not used", product.span->ranges)};
    }
    const auto unit_of_span = minutes_of(product.span->unit);
    if (!unit_of_span) {
        return unused_unit(product.span->unit);
    }
    const auto kind = time_kind_of(*product.span);
    if (!kind) {
        return unused_step_type(handle.text("stepType").value_or("unknown"));
    }
    return times_from(*kind, run, start, start + product.span->length * *unit_of_span);
}

}  // namespace gloam::weather
