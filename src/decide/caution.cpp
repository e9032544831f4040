#include "decide/caution.hpp"

#include <algorithm>
#include <array>
#include <tuple>
#include <utility>

namespace gloam::decide {
namespace {

constexpr std::array<std::pair<Hazard, std::string_view>, 21> kNames{{
    {Hazard::kTide, "tide"},         {Hazard::kWaves, "waves"},
    {Hazard::kEdge, "edge"},         {Hazard::kIceAndMud, "ice"},
    {Hazard::kDarkWalk, "dark"},     {Hazard::kTiredDriver, "driver"},
    {Hazard::kWarning, "warning"},   {Hazard::kLightning, "lightning"},
    {Hazard::kWind, "wind"},         {Hazard::kColdAndHeat, "cold"},
    {Hazard::kFog, "fog"},           {Hazard::kApart, "apart"},
    {Hazard::kHealth, "health"},     {Hazard::kHelp, "help"},
    {Hazard::kAccess, "access"},     {Hazard::kDrones, "drones"},
    {Hazard::kWildlife, "wildlife"}, {Hazard::kRoadAndSite, "site"},
    {Hazard::kGear, "gear"},         {Hazard::kOwnNote, "note"},
    {Hazard::kUnknown, "unknown"},
}};

}  // namespace

std::string_view name_of(Hazard hazard) {
    return std::ranges::find(kNames, hazard, &std::pair<Hazard, std::string_view>::first)->second;
}

std::string_view name_of(CautionKind kind) {
    switch (kind) {
        case CautionKind::kStop:
            return "STOP";
        case CautionKind::kMind:
            return "MIND";
        case CautionKind::kNote:
            break;
    }
    return "NOTE";
}

void put_in_order(std::vector<Caution>& cautions) {
    std::ranges::stable_sort(cautions, {},
                             [](const Caution& caution) { return std::tuple(caution.kind, caution.hazard); });
}

bool is_for_guests(Hazard hazard) {
    return hazard == Hazard::kTide || hazard == Hazard::kWaves || hazard == Hazard::kDarkWalk ||
           hazard == Hazard::kHelp;
}

}  // namespace gloam::decide
