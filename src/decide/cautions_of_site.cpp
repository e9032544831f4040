// What the place's tags, gates and permissions call for, in the built-in words.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>

#include "decide/caution_parts.hpp"

namespace gloam::decide {
namespace {

using trip::PlaceTag;

struct TagWords {
    PlaceTag tag;
    Hazard hazard;
    const char* text;
    const char* ask;
};

constexpr std::array<TagWords, 9> kTagWords{{
    {PlaceTag::kCliff, Hazard::kEdge,
     "An edge: nobody steps back while framing; keep a line behind which tripods stay. Soft after rain, "
     "frost or "
     "drought.",
     "local guide"},
    {PlaceTag::kRoad, Hazard::kRoadAndSite, "A road: park only where you noted; nobody stands on it.", ""},
    {PlaceTag::kRailway, Hazard::kRoadAndSite, "A railway: never on the line.", "railway"},
    {PlaceTag::kQuarry, Hazard::kRoadAndSite, "Workings: keep out of them.", "operator"},
    {PlaceTag::kFiringRange, Hazard::kRoadAndSite, "A firing range: get its firing times.", "range office"},
    {PlaceTag::kLivestock, Hazard::kRoadAndSite, "Animals in the field: gates as found, dogs out.", "farmer"},
    {PlaceTag::kWildlifeSeason, Hazard::kWildlife,
     "Wildlife season: keep the distance that the site's authority sets; no nests, no playback.", "ranger"},
    {PlaceTag::kProtected, Hazard::kWildlife,
     "A protected site: keep to the paths; nothing is trodden down for a foreground.", "site authority"},
    {PlaceTag::kValley, Hazard::kFog, "A valley: fog and frost may lie in it that the forecast does not see.",
     ""},
}};

void add_access_cautions(const OutingFacts& facts, std::vector<Caution>& cautions) {
    const TimeChain& chain = *facts.chain;
    if (!chain.shut_gates.empty()) {
        cautions.push_back({Hazard::kAccess, CautionKind::kStop,
                            fmt::format("Shut when you would pass: {}.", fmt::join(chain.shut_gates, ", ")),
                            "gate times typed by the leader", "owner", ""});
    }
    if (chain.gate_limit && *chain.gate_limit < chain.light_over) {
        cautions.push_back({Hazard::kAccess,
                            *chain.gate_limit <= chain.stand ? CautionKind::kStop : CautionKind::kMind,
                            fmt::format("A gate closes on the way back: leave the stand by {}.",
                                        facts.zone.clock(*chain.gate_limit)),
                            "gate times typed by the leader", "owner"});
    }
    if (!facts.place->permission && facts.trip->paid.value_or(true)) {
        cautions.push_back({Hazard::kAccess, CautionKind::kMind,
                            "No permission for a paid group is noted here.", "your place notes", "owner",
                            ""});
    }
}

}  // namespace

void add_site_cautions(const OutingFacts& facts, std::vector<Caution>& cautions) {
    for (const TagWords& words : kTagWords) {
        if (has_tag(facts, words.tag)) {
            cautions.push_back({words.hazard, CautionKind::kMind, words.text, kBuiltIn, words.ask, ""});
        }
    }
    add_access_cautions(facts, cautions);
}

}  // namespace gloam::decide
