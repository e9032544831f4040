#include "weather/grib/time.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <string_view>
#include <utility>

namespace gloam::weather {
namespace {

// Code table 4.4 (edition 1: table 4): minutes, hours, days, 3, 6 and 12 hours mean the same in both
// editions.
constexpr std::array kUsedUnits{0L, 1L, 2L, 10L, 11L, 12L};

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

}  // namespace

std::optional<NotUsed> unused_time_unit(const GribHandle& handle) {
    for (const char* key : {"indicatorOfUnitOfTimeRange", "indicatorOfUnitForTimeRange"}) {
        const auto unit = handle.integer(key);
        if (unit && std::ranges::find(kUsedUnits, *unit) == kUsedUnits.end()) {
            return NotUsed{fmt::format("unit of time {} is not used", *unit)};
        }
    }
    return std::nullopt;
}

tl::expected<std::variant<GribTimes, NotUsed>, std::string> times_of(GribHandle& handle) {
    handle.set("stepUnits", "m");  // before any step is read: the decoder would round minutes to hours
    const std::string step_type = handle.text("stepType").value_or("unknown");
    const auto kind = time_kind_of(step_type);
    if (!kind) {
        return NotUsed{fmt::format("step type {} is not used", step_type)};
    }
    const auto run = run_time_of(handle);
    const auto start = step_of(handle, "startStep");
    const auto end = step_of(handle, "endStep");
    if (!run || !start || !end || *start > *end) {
        return tl::unexpected<std::string>("the date or the forecast step makes no sense");
    }
    return GribTimes{*kind, *run, *run + *start, *run + *end};
}

}  // namespace gloam::weather
