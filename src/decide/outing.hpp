#pragma once

#include "decide/caution_limits.hpp"
#include "decide/time_chain.hpp"
#include "geo/zone.hpp"
#include "trip/trip.hpp"

namespace gloam::decide {

/// The links of the chain as the trip sets them, the built-in ones where it does not, the loading for the
/// size of its group; what is kept from the tide by `limits`.
ChainLinks chain_links_of(const trip::Trip& trip, const CautionLimits& limits);

/// The way to a place for the slowest of the group (4 km/h if not given): minutes as the leader typed them,
/// or Naismith's.
std::vector<ChainLeg> legs_of(const trip::Place& place, const trip::Group& group);

/// The gates of a place about an instant of an event: opening and closing as the clock shows them on the
/// dates on which each gate is open next to it. A gate that is shut at `instant` opens next at `opens`.
std::vector<ChainGate> gates_about(const trip::Place& place, const geo::Zone& zone, Instant instant);

/// The first time from `from` on for which the leader typed that the tide closes the way, within 18 hours;
/// absent: none.
std::optional<Instant> tide_closing_after(const trip::Place& place, const geo::Zone& zone, Instant from);

/// The last time in the six hours before `instant` for which the leader typed that the tide closed the way:
/// it may still be closed; absent: none.
std::optional<Instant> tide_closing_before(const trip::Place& place, const geo::Zone& zone, Instant instant);

}  // namespace gloam::decide
