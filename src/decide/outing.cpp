#include "decide/outing.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::decide {
namespace {

constexpr double kUsualSlowest_kmh = 4.0;
constexpr auto kSameTide = std::chrono::hours(18);
constexpr auto kHalfTide = std::chrono::hours(6);

Duration minutes_of(double minutes) {
    return Duration(std::llround(minutes * 60.0e3));
}

void set_minutes(Duration& link, std::optional<double> minutes) {
    link = minutes ? minutes_of(*minutes) : link;
}

std::string name_of(const trip::AccessLeg& leg) {
    return leg.name.value_or(leg.kind == trip::LegKind::kDrive ? "drive" : "walk");
}

ChainLeg chain_leg(const trip::AccessLeg& leg, double slowest_kmh) {
    ChainLeg timed{name_of(leg), leg.kind, {}, {}};
    if (leg.minutes) {
        timed.out = timed.back = minutes_of(*leg.minutes);
    } else if (leg.distance_m) {
        timed.out = walking_time(*leg.distance_m, leg.climb_m.value_or(0.0), slowest_kmh);
        timed.back = walking_time(*leg.distance_m, leg.descent_m.value_or(0.0), slowest_kmh);
    }
    return timed;
}

/// A time of the clock on a date; a time that the clock skips that night is the instant it is put forward, of
/// one shown twice the first counts.
std::optional<Instant> instant_on(const geo::Zone& zone, CivilDate date, trip::ClockTime time) {
    for (trip::ClockTime tried = time; tried < std::chrono::hours(24); tried += std::chrono::minutes(1)) {
        const auto instants = zone.instants_of(date, tried);
        if (!instants.empty()) {
            return instants.front();
        }
    }
    return std::nullopt;
}

/// Instants at which the clock shows a time on the date of `about` and those beside it, in order.
std::vector<Instant> instants_about(const geo::Zone& zone, Instant about, trip::ClockTime time) {
    std::vector<Instant> instants;
    const std::chrono::sys_days today = zone.date_of(about);
    for (const int day : {-1, 0, 1, 2}) {
        if (const auto instant = instant_on(zone, today + std::chrono::days(day), time)) {
            instants.push_back(*instant);
        }
    }
    return instants;
}

/// The first of `instants` after `instant`, and the last until then.
std::optional<Instant> next_after(const std::vector<Instant>& instants, Instant instant) {
    const auto found = std::ranges::upper_bound(instants, instant);
    return found == instants.end() ? std::nullopt : std::optional(*found);
}

std::optional<Instant> last_until(const std::vector<Instant>& instants, Instant instant) {
    const auto found = std::ranges::upper_bound(instants, instant);
    return found == instants.begin() ? std::nullopt : std::optional(*std::prev(found));
}

/// All closings that the leader typed, in order.
std::vector<Instant> tide_closings(const trip::Place& place, const geo::Zone& zone) {
    std::vector<Instant> closings;
    for (const trip::LocalMoment& typed : place.tide_closes) {
        if (const auto closes = instant_on(zone, typed.date, typed.time)) {
            closings.push_back(*closes);
        }
    }
    std::ranges::sort(closings);
    return closings;
}

ChainGate gate_about(const trip::Gate& gate, const geo::Zone& zone, Instant instant) {
    if (!gate.opens || !gate.closes) {
        const auto on_the_day = [&](std::optional<trip::ClockTime> time) {
            return time ? instant_on(zone, zone.date_of(instant), *time) : std::nullopt;
        };
        return {gate.name, on_the_day(gate.opens), on_the_day(gate.closes)};
    }
    const auto opens = instants_about(zone, instant, *gate.opens);
    const auto closes = instants_about(zone, instant, *gate.closes);
    const auto opened = last_until(opens, instant);
    const auto closed = last_until(closes, instant);
    const bool open = opened && (!closed || *closed < *opened);
    const auto from = open ? opened : next_after(opens, instant);
    return {gate.name, from, from ? next_after(closes, *from) : std::nullopt};
}

}  // namespace

ChainLinks chain_links_of(const trip::Trip& trip, const CautionLimits& limits) {
    ChainLinks links;
    set_minutes(links.colour_before_sun, trip.chain.colour_before_sun_min);
    set_minutes(links.settle, trip.chain.settle_min);
    set_minutes(links.load, trip.chain.load_min);
    set_minutes(links.wake_to_door, trip.chain.wake_to_door_min);
    set_minutes(links.look_before_wake, trip.chain.look_before_wake_min);
    links.dark_factor = trip.chain.dark_factor.value_or(links.dark_factor);
    links.tide_reserve = minutes_of(limits.tide_reserve_min);
    links.tide_walk_factor = limits.tide_walk_factor;
    links.load = load_of(links.load, trip.group.size.value_or(0));
    return links;
}

std::vector<ChainLeg> legs_of(const trip::Place& place, const trip::Group& group) {
    std::vector<ChainLeg> legs;
    for (const trip::AccessLeg& leg : place.access) {
        legs.push_back(chain_leg(leg, group.slowest_kmh.value_or(kUsualSlowest_kmh)));
    }
    return legs;
}

std::vector<ChainGate> gates_about(const trip::Place& place, const geo::Zone& zone, Instant instant) {
    std::vector<ChainGate> gates;
    for (const trip::Gate& gate : place.gates) {
        gates.push_back(gate_about(gate, zone, instant));
    }
    return gates;
}

std::optional<Instant> tide_closing_after(const trip::Place& place, const geo::Zone& zone, Instant from) {
    const auto closings = tide_closings(place, zone);
    const auto next = std::ranges::lower_bound(closings, from);
    return next != closings.end() && *next <= from + kSameTide ? std::optional(*next) : std::nullopt;
}

std::optional<Instant> tide_closing_before(const trip::Place& place, const geo::Zone& zone, Instant instant) {
    const auto closings = tide_closings(place, zone);
    const auto next = std::ranges::lower_bound(closings, instant);
    const bool lately = next != closings.begin() && *std::prev(next) >= instant - kHalfTide;
    return lately ? std::optional(*std::prev(next)) : std::nullopt;
}

}  // namespace gloam::decide
