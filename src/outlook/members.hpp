#pragma once

#include <optional>
#include <vector>

#include "outlook/assumed_path.hpp"
#include "outlook/event_request.hpp"
#include "outlook/neighbourhood.hpp"

namespace gloam::outlook {

/// One member of the outlook: which forecast it reads, and how.
struct Member {
    std::size_t forecast_member = 0;  ///< index in LayeredForecast::members
    MemberDraw draw;
    std::optional<weather::Band> only;  ///< total cover assumed to lie in this band
    AssumedPath path = AssumedPath::kAsForecast;
};

/// Members of the outlook: those of a real ensemble, each with its own draw of what a forecast never says; or
/// 31 displaced readings of a single run. Means over hours are displaced by what cloud drifts in them, real
/// ensemble or not. With total cover alone a third each puts it low, in the middle, high. Of a forecast for
/// one point the first lets its cloud drift by; the others open and shut the path up-sun in turn.
std::vector<Member> members_of(const weather::LayeredForecast& forecast, const EventRequest& request);

}  // namespace gloam::outlook
