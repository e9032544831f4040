#pragma once

#include "outlook/event_request.hpp"
#include "outlook/neighbourhood.hpp"
#include "sky/atmosphere.hpp"

namespace gloam::outlook {

/// The clear air of a member: its aerosol, over the ground of the place, with the ozone usual there and
/// then, to 10 DU.
sky::Atmosphere atmosphere_of(const MemberDraw& draw, const EventRequest& request);

}  // namespace gloam::outlook
