#include "outlook/members.hpp"

#include <algorithm>

#include "weather/served_times.hpp"

namespace gloam::outlook {
namespace {

constexpr std::size_t kNeighbours = 31;
constexpr double kHalfHour_h = 0.5;

/// The sun comes or goes about the middle of its half day.
Instant middle_of(const astro::HalfDay& half_day) {
    const auto& [begin, end] = half_day.span;
    return begin + (end - begin) / 2;
}

/// Of a mean over hours the event may be any minute, in a real ensemble too.
Displaceable displaceable_of(const weather::LayeredForecast& forecast, const EventRequest& request) {
    const Instant event = middle_of(request.half_day);
    const auto& first = forecast.members.front();
    const double half_span_h = 0.5 * span_hours_at(first, event);
    if (forecast.members.size() > 1) {
        return {std::nullopt, half_span_h, false};
    }
    return {hours_between(request.run_time, event), std::max(kHalfHour_h, half_span_h),
            first.steps.size() > 1 && !is_average(first.steps.front())};
}

/// Whether cover is not a forecast's own word for the minute.
bool is_cover_in_doubt(weather::LayerRoute route) {
    return route == weather::LayerRoute::kHumidityOnLevels || route == weather::LayerRoute::kAveragedLayers;
}

}  // namespace

std::vector<Member> members_of(const weather::LayeredForecast& forecast, const EventRequest& request) {
    const bool ensemble = forecast.members.size() > 1;
    const auto draws =
        neighbourhood(ensemble ? forecast.members.size() : kNeighbours, displaceable_of(forecast, request));
    std::vector<Member> members;
    for (std::size_t i = 0; i < draws.size(); ++i) {
        Member member{ensemble ? i : 0, draws[i], std::nullopt};
        if (!is_cover_in_doubt(forecast.route)) {
            member.draw.cover_power = 1.0;
        }
        if (forecast.route == weather::LayerRoute::kTotalOnly) {
            member.only = weather::kBands[i % weather::kBands.size()];
        }
        if (is_point(forecast.grid) && i > 0) {
            member.path = i % 2 == 0 ? AssumedPath::kShut : AssumedPath::kOpen;
        }
        members.push_back(member);
    }
    return members;
}

}  // namespace gloam::outlook
