#include "outlook/members.hpp"

namespace gloam::outlook {
namespace {

constexpr std::size_t kNeighbours = 31;

}  // namespace

std::vector<Member> members_of(const weather::LayeredForecast& forecast, const EventRequest& request) {
    const bool ensemble = forecast.members.size() > 1;
    const auto& [begin, end] = request.half_day.span;
    // The sun comes or goes about the middle of its half day.
    const Displaceable displaceable{hours_between(request.run_time, begin + (end - begin) / 2),
                                    forecast.members.front().steps.size() > 1};
    const auto draws =
        neighbourhood(ensemble ? forecast.members.size() : kNeighbours, ensemble ? nullptr : &displaceable);
    std::vector<Member> members;
    for (std::size_t i = 0; i < draws.size(); ++i) {
        Member member{ensemble ? i : 0, draws[i], std::nullopt};
        if (forecast.route == weather::LayerRoute::kTotalOnly) {
            member.only = weather::kBands[i % weather::kBands.size()];
        }
        members.push_back(member);
    }
    return members;
}

}  // namespace gloam::outlook
