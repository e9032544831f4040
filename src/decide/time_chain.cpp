#include "decide/time_chain.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::decide {
namespace {

using std::chrono::minutes;

constexpr int kPartyThatLoadsAtOnce = 8;

Instant earlier_minute(Instant instant) {
    return std::chrono::floor<minutes>(instant);
}

Instant later_minute(Instant instant) {
    return std::chrono::ceil<minutes>(instant);
}

Duration scaled(Duration duration, double factor) {
    return Duration(std::llround(static_cast<double>(duration.count()) * factor));
}

bool is_dark(const ChainEvent& event, Instant begin, Instant end) {
    if (!event.civil) {
        return event.dark_throughout;
    }
    return event.dawn ? begin < *event.civil : end > *event.civil;
}

/// The leg that ends at `to`, or the one that begins at `from`: in the dark it takes longer.
TimedLeg leg_until(const ChainEvent& event, const ChainLinks& links, const ChainLeg& leg, Instant to) {
    const bool dark = leg.kind == trip::LegKind::kWalk && is_dark(event, to - leg.out, to);
    return {leg.name, leg.kind, earlier_minute(to - scaled(leg.out, dark ? links.dark_factor : 1.0)), to,
            dark};
}

TimedLeg leg_from(const ChainEvent& event, const ChainLinks& links, const ChainLeg& leg, Instant from) {
    const bool dark = leg.kind == trip::LegKind::kWalk && is_dark(event, from, from + leg.back);
    return {leg.name, leg.kind, from, later_minute(from + scaled(leg.back, dark ? links.dark_factor : 1.0)),
            dark};
}

std::vector<TimedLeg> way_out(const ChainEvent& event, const ChainLinks& links, Instant stand) {
    std::vector<TimedLeg> out;
    Instant to = stand;
    for (auto leg = event.legs.rbegin(); leg != event.legs.rend(); ++leg) {
        out.push_back(leg_until(event, links, *leg, to));
        to = out.back().from;
    }
    std::ranges::reverse(out);
    return out;
}

std::vector<TimedLeg> way_back(const ChainEvent& event, const ChainLinks& links, Instant leave_stand) {
    std::vector<TimedLeg> back;
    Instant from = leave_stand;
    for (auto leg = event.legs.rbegin(); leg != event.legs.rend(); ++leg) {
        back.push_back(leg_from(event, links, *leg, from));
        from = back.back().to;
    }
    return back;
}

/// All walking of a way: that between a gate, or dry ground, and the stand is part of it.
Duration walk_of(const std::vector<TimedLeg>& legs) {
    Duration walk{};
    for (const TimedLeg& leg : legs) {
        walk += leg.kind == trip::LegKind::kWalk ? leg.to - leg.from : Duration{};
    }
    return walk;
}

/// When the gates are passed on the way out: where the last drive ends.
Instant at_gates(const TimeChain& chain) {
    Instant passed = chain.leave;
    for (const TimedLeg& leg : chain.out) {
        passed = leg.kind == trip::LegKind::kDrive ? leg.to : passed;
    }
    return passed;
}

std::vector<std::string> shut_at(const std::vector<ChainGate>& gates, Instant passed) {
    std::vector<std::string> shut;
    for (const ChainGate& gate : gates) {
        if ((gate.opens && passed < *gate.opens) || (gate.closes && passed >= *gate.closes)) {
            shut.push_back(gate.name);
        }
    }
    return shut;
}

void limit_stay(TimeChain& chain, StayLimit limit, std::optional<Instant> leave_by) {
    if (leave_by && *leave_by < chain.leave_stand) {
        chain.leave_stand = *leave_by;
        chain.limit = limit;
    }
}

/// When to leave the stand to be through the gate that closes first.
std::optional<Instant> gate_limit(const ChainEvent& event, const TimeChain& chain, Duration walk_back) {
    std::optional<Instant> limit;
    for (const ChainGate& gate : event.gates) {
        if (gate.closes && *gate.closes > at_gates(chain)) {
            const Instant leave_by = earlier_minute(*gate.closes - walk_back);
            limit = limit ? std::min(*limit, leave_by) : leave_by;
        }
    }
    return limit;
}

/// The latest minute to leave the stand, and what sets it.
void set_stay(const ChainEvent& event, const ChainLinks& links, TimeChain& chain) {
    chain.light_over = later_minute(event.over);
    chain.leave_stand = chain.light_over;
    const auto back = way_back(event, links, chain.light_over);
    const Duration walk_back = walk_of(back);
    if (event.tide_closes) {
        const Duration walk = std::max(walk_of(chain.out), walk_back);
        chain.tide_limit =
            earlier_minute(*event.tide_closes - scaled(walk, links.tide_walk_factor) - links.tide_reserve);
    }
    chain.gate_limit = gate_limit(event, chain, walk_back);
    if (event.back_by && !back.empty()) {
        chain.driver_limit = earlier_minute(*event.back_by - (back.back().to - back.front().from));
    }
    limit_stay(chain, StayLimit::kTide, chain.tide_limit);
    limit_stay(chain, StayLimit::kGate, chain.gate_limit);
    limit_stay(chain, StayLimit::kDriver, chain.driver_limit);
}

bool has_drive(const ChainEvent& event) {
    return std::ranges::any_of(event.legs,
                               [](const ChainLeg& leg) { return leg.kind == trip::LegKind::kDrive; });
}

}  // namespace

Duration walking_time(double distance_m, double climb_m, double slowest_kmh) {
    const double flat_min = distance_m / 1000.0 / slowest_kmh * 60.0;
    const double climb_min = climb_m / 10.0;
    return Duration(std::llround((flat_min + climb_min) * 60.0e3));
}

Duration load_of(Duration usual, int party) {
    return usual + minutes(std::max(0, party - kPartyThatLoadsAtOnce));
}

TimeChain time_chain(const ChainEvent& event, const ChainLinks& links) {
    TimeChain chain;
    chain.first_colour = earlier_minute(event.sun - links.colour_before_sun);
    chain.stand = earlier_minute(chain.first_colour - links.settle);
    chain.out = way_out(event, links, chain.stand);
    chain.leave = chain.out.empty() ? chain.stand : chain.out.front().from;
    chain.doors = earlier_minute(chain.leave - (has_drive(event) ? links.load : Duration{}));
    chain.wake = earlier_minute(chain.doors - links.wake_to_door);
    chain.look = earlier_minute(chain.wake - links.look_before_wake);
    chain.shut_gates = shut_at(event.gates, at_gates(chain));
    set_stay(event, links, chain);
    chain.back = way_back(event, links, chain.leave_stand);
    chain.at_base = chain.back.empty() ? chain.leave_stand : chain.back.back().to;
    if (event.dawn && event.previous_return) {
        chain.sleep = chain.wake - *event.previous_return;
    }
    return chain;
}

}  // namespace gloam::decide
