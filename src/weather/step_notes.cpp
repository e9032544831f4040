#include "weather/step_notes.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <functional>
#include <set>
#include <utility>

#include "weather/wanted.hpp"

namespace gloam::weather {
namespace {

using Times = std::pair<Instant, Instant>;

Times times_of(const RouteStep& step) {
    return {step.from, step.to};
}

std::string name_of(std::optional<int> member, const Times& times) {
    const auto& [from, to] = times;
    const std::string step =
        from == to ? "the step valid at " + to_rfc3339_utc(to)
                   : fmt::format("the average from {} to {}", to_rfc3339_utc(from), to_rfc3339_utc(to));
    return member ? fmt::format("{} of member {}", step, *member) : step;
}

}  // namespace

std::string name_of(const RouteStep& step) {
    return name_of(step.member, times_of(step));
}

void note_missing_levels(std::span<const RouteStep> steps, std::vector<std::string>& notes) {
    std::set<double, std::greater<>> levels_pa;
    for (const RouteStep& step : steps) {
        for (const Field* field : step.cover) {
            levels_pa.insert(field->level.pressure_pa);
        }
    }
    for (const RouteStep& step : steps) {
        std::vector<double> missing_hpa;
        for (const double pressure_pa : levels_pa) {
            const auto is_there = [=](const Field* field) { return field->level.pressure_pa == pressure_pa; };
            if (std::ranges::none_of(step.cover, is_there)) {
                missing_hpa.push_back(pressure_pa / 100.0);
            }
        }
        if (!missing_hpa.empty()) {
            notes.push_back(fmt::format("{} lacks {} at {} hPa and is used without", name_of(step),
                                        name_of(step.cover.front()->quantity), fmt::join(missing_hpa, ", ")));
        }
    }
}

void note_missing_times(std::span<const RouteStep> steps, std::vector<std::string>& notes) {
    std::set<std::optional<int>> members;
    std::set<Times> times;
    std::set<std::pair<std::optional<int>, Times>> there;
    for (const RouteStep& step : steps) {
        members.insert(step.member);
        times.insert(times_of(step));
        there.emplace(step.member, times_of(step));
    }
    for (const auto& member : members) {
        for (const Times& time : times) {
            if (!there.contains({member, time})) {
                notes.push_back(name_of(member, time) + " is missing; other members have it");
            }
        }
    }
}

void note_gaps(std::span<const RouteStep> steps, std::vector<std::string>& notes) {
    std::set<Times> gaps;
    for (std::size_t i = 1; i < steps.size(); ++i) {
        const RouteStep& earlier = steps[i - 1];
        const RouteStep& later = steps[i];
        if (earlier.member == later.member && later.from == later.to &&
            later.from - earlier.to > kLongestGap) {
            gaps.emplace(earlier.to, later.from);
        }
    }
    for (const auto& [from, to] : gaps) {
        notes.push_back(
            fmt::format("from {} to {}, {:g} h, no step is there: cloud is taken to change evenly",
                        to_rfc3339_utc(from), to_rfc3339_utc(to), hours_between(from, to)));
    }
}

}  // namespace gloam::weather
