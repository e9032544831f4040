#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace gloam::decide {

/// A guest who may be called, and above which odds.
struct PartyGuest {
    std::string name;
    double threshold = 0.0;
    bool opted_out = false;
};

/// Who is called and who is left asleep.
struct Party {
    std::vector<std::string> called;
    std::vector<std::string> asleep;
};

/// Each guest by their own threshold: called if the odds are above it and they have not opted out. Thresholds
/// are never averaged into one.
Party party_at(double odds, std::span<const PartyGuest> guests);

/// The odds above which at least `least_party` guests (one, if less) are called; infinite if so many would
/// never be.
double party_threshold(std::span<const PartyGuest> guests, std::size_t least_party);

}  // namespace gloam::decide
