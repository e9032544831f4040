#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/instant.hpp"
#include "trip/trip.hpp"

namespace gloam::decide {

/// One leg of the way from base to stand, in daylight.
struct ChainLeg {
    std::string name;
    trip::LegKind kind = trip::LegKind::kWalk;
    Duration out{};   ///< towards the stand
    Duration back{};  ///< from it
};

/// Time on foot for the slowest of a party. Naismith's rule: 15 min a kilometre (4 km/h) and 10 min for each
/// 100 m of climb; nothing is saved downhill. Source: Naismith 1892, as taught for the slowest walker.
/// distance_m and climb_m >= 0, slowest_kmh > 0.
Duration walking_time(double distance_m, double climb_m, double slowest_kmh);

/// A gate that stands open from `opens` to `closes` on the day; absent: it does not open, or does not close,
/// on that day.
struct ChainGate {
    std::string name;
    std::optional<Instant> opens;
    std::optional<Instant> closes;
};

/// Links of the chain that are the group's own. Starting rules, no source but common practice.
struct ChainLinks {
    Duration colour_before_sun = std::chrono::minutes(45);  ///< colour may begin so long before sunrise
    Duration settle = std::chrono::minutes(10);             ///< on the stand before that, to compose
    double dark_factor = 1.5;  ///< on walks that begin before civil dawn or end after civil dusk
    Duration load = std::chrono::minutes(10);  ///< to fill the cars; see load_of()
    Duration wake_to_door = std::chrono::minutes(30);
    Duration look_before_wake = std::chrono::minutes(20);
    double tide_walk_factor = 1.5;                     ///< the walk counts so many times against the tide
    Duration tide_reserve = std::chrono::minutes(30);  ///< besides
};

/// Loading for a party: `usual` for up to eight people, a minute more for each beyond. A starting rule.
Duration load_of(Duration usual, int party);

/// What the chain hangs on besides its links.
struct ChainEvent {
    bool dawn = true;
    Instant sun;                         ///< sunrise or sunset; where there is none, the best moment
    Instant over;                        ///< when there is nothing more to wait for on the stand
    std::optional<Instant> civil;        ///< civil dawn or dusk; absent: it stays light, or dark, throughout
    bool dark_throughout = false;        ///< with `civil` absent: it stays dark
    std::vector<ChainLeg> legs;          ///< from base to stand, in order
    std::vector<ChainGate> gates;        ///< between the last drive and the first walk
    std::optional<Instant> tide_closes;  ///< when the path is covered next after the stand time
    std::optional<Instant> back_by;      ///< latest return to the base, by the driver's rules
    std::optional<Instant> previous_return;  ///< when the group came home the evening before
};

/// A leg with its times.
struct TimedLeg {
    std::string name;
    trip::LegKind kind = trip::LegKind::kWalk;
    Instant from;
    Instant to;
    bool dark = false;  ///< a walk that begins before civil dawn or ends after civil dusk
};

/// What limits the stay on the stand.
enum class StayLimit { kLight, kTide, kGate, kDriver };

/// The times of one outing, to the minute: those to be ready by are rounded to the earlier minute, those of
/// coming back to the later.
struct TimeChain {
    Instant look;   ///< the leader's
    Instant wake;   ///< call time; for a dusk, when to get ready
    Instant doors;  ///< people at the cars
    Instant leave;  ///< leave time: cars loaded
    std::vector<TimedLeg> out;
    Instant stand;         ///< stand time: ready to compose
    Instant first_colour;  ///< earliest
    Instant light_over;
    std::optional<Instant> tide_limit;    ///< leave the stand by then for the tide
    std::optional<Instant> gate_limit;    ///< for the gate that closes first
    std::optional<Instant> driver_limit;  ///< for the driver's hours
    Instant leave_stand;                  ///< the earliest of these
    StayLimit limit = StayLimit::kLight;  ///< which one that is
    std::vector<TimedLeg> back;
    Instant at_base;
    std::optional<Duration> sleep;  ///< from the previous return to the wake time, for a dawn
    /// Gates that are not open when the group is there, on the way out (by their names).
    std::vector<std::string> shut_gates;
};

/// The chain, backward from the light and forward to the base. A gate's or the tide's limit may stand before
/// the stand time: then the outing does not work and leave_stand says so by being earlier than `stand`.
TimeChain time_chain(const ChainEvent& event, const ChainLinks& links);

}  // namespace gloam::decide
