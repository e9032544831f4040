#include "outlook/event_sample.hpp"

#include <optional>

#include "base/parallel.hpp"
#include "outlook/member_air.hpp"
#include "outlook/members.hpp"
#include "outlook/missing.hpp"
#include "weather/served_times.hpp"

namespace gloam::outlook {
namespace {

/// Moments that the forecast serves; refused if one that decides is not among them.
Result<std::vector<Moment>> served_moments(const weather::LayeredForecast& forecast,
                                           const EventRequest& request) {
    auto moments = moments_of(request.observer, request.half_day);
    if (!moments) {
        return moments;
    }
    for (const Moment& moment : *moments) {
        if (is_after(moment.sun.elevation) && !serves(forecast, moment.instant)) {
            auto refusal =
                sample_light_path(forecast, 0, request.observer.at, moment.azimuth, moment.instant, {});
            return tl::unexpected(refusal.error());
        }
    }
    std::erase_if(*moments, [&](const Moment& moment) { return !serves(forecast, moment.instant); });
    return moments;
}

/// The cloud of all members, side by side; the first error if any has one.
Result<std::vector<MovingClouds>> clouds_of(const weather::LayeredForecast& forecast,
                                            const EventRequest& request, const std::vector<Member>& members,
                                            const std::vector<Moment>& moments) {
    std::vector<std::optional<Result<MovingClouds>>> read(members.size());
    parallel_for(members.size(), [&](std::size_t i) {
        read[i].emplace(moving_clouds(forecast, members[i], request.observer.at, moments));
    });
    std::vector<MovingClouds> clouds;
    clouds.reserve(read.size());
    for (auto& one : read) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
        clouds.push_back(std::move(**one));
    }
    return clouds;
}

}  // namespace

Result<EventSample> sample_event(const weather::LayeredForecast& forecast, const EventRequest& request) {
    auto moments = served_moments(forecast, request);
    if (!moments) {
        return tl::unexpected(moments.error());
    }
    const auto members = members_of(forecast, request);
    auto clouds = clouds_of(forecast, request, members, *moments);
    if (!clouds) {
        return tl::unexpected(clouds.error());
    }
    EventSample sample{request.observer.height,
                       {},
                       {},
                       forecast.route == weather::LayerRoute::kTotalOnly,
                       missing_in(forecast, *moments, atmosphere_of(members.front().draw, request).ozone_du)};
    for (std::size_t i = 0; i < members.size(); ++i) {
        sample.members.push_back(
            {atmosphere_of(members[i].draw, request), members[i].draw.depth_factor, std::move((*clouds)[i])});
    }
    sample.moments = *std::move(moments);
    return sample;
}

}  // namespace gloam::outlook
