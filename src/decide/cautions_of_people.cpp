// Who stays, who needs thought, who is called for help. Counts, not names: what is stored outlives the tour.
#include <fmt/format.h>

#include <algorithm>

#include "decide/caution_parts.hpp"
#include "geo/position.hpp"

namespace gloam::decide {
namespace {

std::ptrdiff_t count_of(const OutingFacts& facts, bool trip::Guest::*mark) {
    return std::ranges::count_if(facts.trip->group.guests, mark);
}

/// Where the group is, for whoever is called: the place's name, unless that is its coordinates, and these.
std::string whereabouts(const trip::Place& place) {
    const std::string at = geo::to_text(place.at);
    return place.name == at ? at : place.name + ", " + at;
}

Caution help(const OutingFacts& facts) {
    const trip::Trip& trip = *facts.trip;
    const auto late = std::chrono::seconds(static_cast<long>(60.0 * facts.limits.alarm_after_min));
    return {Hazard::kHelp, CautionKind::kMind,
            fmt::format(
                "Help: {}. You are at {}. {} holds this plan and raises the alarm at {} if you are not back. "
                "Phone: {}.",
                trip.emergency_number.value_or("no emergency number noted"), whereabouts(*facts.place),
                trip.plan_holder.value_or("Nobody noted"), facts.zone.clock(facts.chain->at_base + late),
                facts.place->phone_cover.value_or("cover not noted")),
            "your trip"};
}

/// The walking of the way out, as far as it is known.
std::string way_in_words(const trip::Place& place) {
    double distance_m = 0.0;
    double climb_m = 0.0;
    for (const trip::AccessLeg& leg : place.access) {
        if (leg.kind == trip::LegKind::kWalk) {
            distance_m += leg.distance_m.value_or(0.0);
            climb_m += leg.climb_m.value_or(0.0);
        }
    }
    return fmt::format("{:.1f} km on foot, {:.0f} m of climb, as far as noted", distance_m / 1e3, climb_m);
}

}  // namespace

void add_people_cautions(const OutingFacts& facts, std::vector<Caution>& cautions) {
    if (const auto count = count_of(facts, &trip::Guest::opted_out); count > 0) {
        cautions.push_back({Hazard::kApart, CautionKind::kNote,
                            fmt::format("{} of the group stay{} behind: say who is where, and count.", count,
                                        count == 1 ? "s" : ""),
                            "your trip", "", ""});
    }
    if (const auto count = count_of(facts, &trip::Guest::needs_thought); count > 0) {
        cautions.push_back(
            {Hazard::kHealth, CautionKind::kMind,
             fmt::format("{} of the group marked as needing thought: {}.", count, way_in_words(*facts.place)),
             "your trip", "", ""});
    }
    if (count_of(facts, &trip::Guest::drone) > 0) {
        cautions.push_back(
            {Hazard::kDrones, CautionKind::kMind,
             "A drone is along: it stays down unless you checked law, owner and wildlife today.", "your trip",
             "owner, aviation authority", ""});
    }
    cautions.push_back(help(facts));
    cautions.push_back({Hazard::kGear, CautionKind::kNote,
                        "Leave nothing; no tripods across paths; lamps down; lenses fog when you go in.",
                        kBuiltIn, "", ""});
}

}  // namespace gloam::decide
