// Tide, waves, rivers, ice and mud: the place's own, and what its cold adds.
#include <fmt/format.h>

#include "decide/caution_parts.hpp"

namespace gloam::decide {
namespace {

using trip::PlaceTag;

constexpr const char* kTideWords = "Surge, swell and rain close it earlier. Typed times, not for navigation";

std::string clock(const OutingFacts& facts, Instant instant) {
    return facts.zone.clock(instant);
}

Caution closing(const OutingFacts& facts) {
    const TimeChain& chain = *facts.chain;
    const std::string closes = clock(facts, std::chrono::floor<std::chrono::minutes>(*facts.tide_closes));
    const std::string leave = clock(facts, *chain.tide_limit);
    Caution caution{Hazard::kTide,
                    CautionKind::kStop,
                    {},
                    "closing time typed by the leader",
                    "official tide table, coastguard"};
    if (*chain.tide_limit <= chain.stand) {
        caution.text =
            fmt::format("The tide closes the path at {}: no time is left on the stand. Go elsewhere. {}.",
                        closes, kTideWords);
    } else if (*chain.tide_limit < chain.light_over) {
        caution.text = fmt::format(
            "The tide closes the path at {}. Leave the stand by {}, before the light is over. {}.", closes,
            leave, kTideWords);
    } else {
        caution.kind = CautionKind::kMind;
        caution.text = fmt::format("The tide closes the path at {}. Leave the stand by {} at the latest. {}.",
                                   closes, leave, kTideWords);
    }
    return caution;
}

Caution closed(const OutingFacts& facts) {
    return {Hazard::kTide, CautionKind::kStop,
            fmt::format("The tide closed the path at {}, and when it opens again is not known here. {}.",
                        clock(facts, *facts.tide_closed), kTideWords),
            "closing time typed by the leader", "official tide table, coastguard"};
}

bool is_by_the_sea(const OutingFacts& facts) {
    return has_tag(facts, PlaceTag::kCoast) || facts.place->water == trip::Water::kSea;
}

bool freezes(const OutingFacts& facts) {
    constexpr double kZero_k = 273.15;
    return facts.weather && facts.weather->near.least_temperature_k.value_or(kZero_k) < kZero_k;
}

}  // namespace

void add_water_cautions(const OutingFacts& facts, std::vector<Caution>& cautions) {
    if (facts.tide_closed) {
        cautions.push_back(closed(facts));
    }
    if (facts.tide_closes) {
        cautions.push_back(closing(facts));
    } else if (is_by_the_sea(facts) || !facts.place->tide_closes.empty()) {
        cautions.push_back(
            {Hazard::kTide, CautionKind::kMind,
             "Tide not known here: take high and low water from an official table before going down.",
             kBuiltIn, "official tide table, coastguard", ""});
    }
    if (is_by_the_sea(facts)) {
        cautions.push_back(
            {Hazard::kWaves, CautionKind::kMind,
             "Swell not known here. Watch the sea for a long while before going down; face it; keep "
             "off wet rock; tripods above the wet line; nobody alone.",
             kBuiltIn, "coastguard", ""});
    }
    if (has_tag(facts, PlaceTag::kIce)) {
        cautions.push_back({Hazard::kIceAndMud, CautionKind::kMind,
                            "Ice thickness not known here, and nobody tests it.", kBuiltIn, "licensed guide",
                            ""});
    }
    if (has_tag(facts, PlaceTag::kRiver) || facts.place->water == trip::Water::kRiver) {
        cautions.push_back({Hazard::kIceAndMud, CautionKind::kMind,
                            "A river goes on rising after the rain has stopped.", kBuiltIn, "river authority",
                            ""});
    }
    if (has_tag(facts, PlaceTag::kMud)) {
        cautions.push_back({Hazard::kIceAndMud, CautionKind::kMind,
                            "Mud or quicksand: keep to the way you walked in daylight.", kBuiltIn,
                            "coastguard, local guide", ""});
    }
    if (freezes(facts) && facts.place->water.value_or(trip::Water::kNone) != trip::Water::kNone) {
        cautions.push_back({Hazard::kIceAndMud, CautionKind::kMind,
                            "Below 0 C beside water: count on ice underfoot.", facts.weather->source, "",
                            ""});
    }
}

}  // namespace gloam::decide
