#include "weather/model_runs.hpp"

#include <algorithm>
#include <chrono>

#include "base/text_table.hpp"
#include "weather/embedded_model_runs.hpp"

namespace gloam::weather {
namespace {

struct Schedule {
    Duration every{};
    Duration complete_after{};
};

/// The table is the program's own: a fault in it is a fault of the build, which `value()` throws as.
std::optional<Schedule> schedule_of(std::string_view source) {
    const TextTable table = parse_text_table(embedded_model_runs(), ',', "model_runs.csv").value();
    const auto every_h = table.numbers("every_h").value();
    const auto after_min = table.numbers("complete_after_min").value();
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        if (source.starts_with(table.rows[i].front())) {
            return Schedule{hours(every_h[i]), hours(after_min[i] / 60.0)};
        }
    }
    return std::nullopt;
}

/// The first run time at or after an instant; runs are counted from 00 UTC.
Instant run_from(Instant instant, Duration every) {
    const auto midnight = std::chrono::floor<std::chrono::days>(instant);
    const Duration since = instant - midnight;
    return midnight + (since + every - Duration(1)) / every * every;
}

}  // namespace

std::optional<RunArrival> next_run(std::string_view source, Instant run_time, Instant now) {
    const auto schedule = schedule_of(source);
    if (!schedule) {
        return std::nullopt;
    }
    const Instant next = std::max(run_from(run_time + Duration(1), schedule->every),
                                  run_from(now - schedule->complete_after, schedule->every));
    return RunArrival{next, next + schedule->complete_after};
}

}  // namespace gloam::weather
