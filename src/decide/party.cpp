#include "decide/party.hpp"

namespace gloam::decide {

Party party_at(double odds, std::span<const PartyGuest> guests, std::size_t least_party) {
    Party party;
    for (const PartyGuest& guest : guests) {
        const bool called = !guest.opted_out && odds > guest.threshold;
        (called ? party.called : party.asleep).push_back(guest.name);
    }
    party.goes = !party.called.empty() && party.called.size() >= least_party;
    return party;
}

}  // namespace gloam::decide
