#include "decide/caution.hpp"

#include <algorithm>
#include <array>
#include <tuple>

namespace gloam::decide {
namespace {

constexpr std::array<std::string_view, kHazards.size()> kNames{
    "tide",      "waves",  "edge",     "ice",  "dark",  "driver", "warning",
    "lightning", "wind",   "cold",     "fog",  "apart", "health", "help",
    "access",    "drones", "wildlife", "site", "gear",  "note",   "unknown"};

}  // namespace

std::string_view name_of(Hazard hazard) {
    return kNames[static_cast<std::size_t>(std::ranges::find(kHazards, hazard) - kHazards.begin())];
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
