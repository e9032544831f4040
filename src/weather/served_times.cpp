#include "weather/served_times.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace gloam::weather {
namespace {

using Steps = std::vector<LayerStep>;

Instant first_of(const Steps& steps) {
    return steps.front().from;
}

Instant last_of(const Steps& steps) {
    return std::ranges::max_element(steps, {}, &LayerStep::to)->to;  // max() would copy the whole step
}

bool is_served(const Steps& steps, Instant instant) {
    if (is_average(steps.front())) {
        return std::ranges::any_of(
            steps, [instant](const LayerStep& step) { return step.from <= instant && instant <= step.to; });
    }
    return instant >= first_of(steps) - kStepReach && instant <= last_of(steps) + kStepReach;
}

tl::unexpected<Error> not_served(const LayeredMember& member, Instant instant) {
    const Instant first = first_of(member.steps);
    const Instant last = last_of(member.steps);
    const bool average = is_average(member.steps.front());
    const std::string valid = first == last
                                  ? "at " + to_rfc3339_utc(first)
                                  : fmt::format("from {} to {}", to_rfc3339_utc(first), to_rfc3339_utc(last));
    return fail(ErrorKind::kOutOfDomain,
                fmt::format("the forecast is valid {}{} and does not serve {}", valid,
                            average ? ", in averages over hours," : "", to_rfc3339_utc(instant)),
                member.member ? fmt::format("member {}", *member.member) : std::string(),
                average ? "add the average over hours that hold that time"
                        : fmt::format("add a forecast step within {} minutes of that time",
                                      kStepReach / std::chrono::minutes(1)));
}

Duration off(const LayerStep& step, Instant instant) {
    return std::max({Duration(0), step.from - instant, instant - step.to});
}

const LayerStep& mean_read_at(const Steps& steps, Instant instant) {
    return *std::ranges::min_element(steps, {}, [instant](const LayerStep& step) {
        return std::tuple(off(step, instant), step.to - step.from, step.from);
    });
}

StepBlend blend_of_instants(const Steps& steps, Instant instant) {
    const auto later = std::ranges::lower_bound(steps, instant, {}, &LayerStep::to);
    if (later->to == instant) {
        return {&*later, &*later, 0.0};
    }
    const auto earlier = std::prev(later);
    return {&*earlier, &*later, hours_between(earlier->to, instant) / hours_between(earlier->to, later->to)};
}

}  // namespace

bool serves(const LayeredForecast& forecast, Instant instant) {
    return std::ranges::all_of(forecast.members, [instant](const LayeredMember& member) {
        return is_served(member.steps, instant);
    });
}

Result<StepBlend> blend_at(const LayeredMember& member, Instant instant, Duration delay) {
    const Steps& steps = member.steps;
    if (!is_served(steps, instant)) {
        return not_served(member, instant);
    }
    const Instant read = std::clamp(instant + delay, first_of(steps), last_of(steps));
    if (is_average(steps.front())) {
        const LayerStep& mean = mean_read_at(steps, read);
        return StepBlend{&mean, &mean, 0.0};
    }
    return blend_of_instants(steps, read);
}

double span_hours_at(const LayeredMember& member, Instant instant) {
    const LayerStep& step = mean_read_at(member.steps, instant);
    return hours_between(step.from, step.to);
}

}  // namespace gloam::weather
