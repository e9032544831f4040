#include "weather/served_times.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace gloam::weather {
namespace {

bool is_served(const LayeredMember& member, Instant instant) {
    return instant >= member.steps.front().valid - kStepReach &&
           instant <= member.steps.back().valid + kStepReach;
}

tl::unexpected<Error> not_served(const LayeredMember& member, Instant instant) {
    const Instant first = member.steps.front().valid;
    const Instant last = member.steps.back().valid;
    const std::string valid = first == last
                                  ? "at " + to_rfc3339_utc(first)
                                  : fmt::format("from {} to {}", to_rfc3339_utc(first), to_rfc3339_utc(last));
    return fail(ErrorKind::kOutOfDomain,
                fmt::format("the forecast is valid {} and does not serve {}", valid, to_rfc3339_utc(instant)),
                member.member ? fmt::format("member {}", *member.member) : std::string(),
                fmt::format("add a forecast step within {} minutes of that time",
                            kStepReach / std::chrono::minutes(1)));
}

}  // namespace

bool serves(const LayeredForecast& forecast, Instant instant) {
    return std::ranges::all_of(forecast.members,
                               [instant](const LayeredMember& member) { return is_served(member, instant); });
}

std::vector<Instant> valid_times(const LayeredForecast& forecast) {
    std::set<Instant> times;
    for (const LayeredMember& member : forecast.members) {
        for (const LayerStep& step : member.steps) {
            times.insert(step.valid);
        }
    }
    return {times.begin(), times.end()};
}

Result<StepBlend> blend_at(const LayeredMember& member, Instant instant, Duration delay) {
    if (!is_served(member, instant)) {
        return not_served(member, instant);
    }
    const auto& steps = member.steps;
    const Instant read = std::clamp(instant + delay, steps.front().valid, steps.back().valid);
    const auto later = std::ranges::lower_bound(steps, read, {}, &LayerStep::valid);
    if (later->valid == read) {
        return StepBlend{&*later, &*later, 0.0};
    }
    const auto earlier = std::prev(later);
    return StepBlend{&*earlier, &*later,
                     hours_between(earlier->valid, read) / hours_between(earlier->valid, later->valid)};
}

}  // namespace gloam::weather
