#include "decide/party.hpp"

#include <algorithm>
#include <limits>

namespace gloam::decide {

Party party_at(double odds, std::span<const PartyGuest> guests) {
    Party party;
    for (const PartyGuest& guest : guests) {
        const bool called = !guest.opted_out && odds > guest.threshold;
        (called ? party.called : party.asleep).push_back(guest.name);
    }
    return party;
}

double party_threshold(std::span<const PartyGuest> guests, std::size_t least_party) {
    std::vector<double> thresholds;
    for (const PartyGuest& guest : guests) {
        if (!guest.opted_out) {
            thresholds.push_back(guest.threshold);
        }
    }
    std::ranges::sort(thresholds);
    const std::size_t needed = std::max<std::size_t>(least_party, 1);
    return needed <= thresholds.size() ? thresholds[needed - 1] : std::numeric_limits<double>::infinity();
}

}  // namespace gloam::decide
