#pragma once

#include <array>
#include <string_view>

#include "base/error.hpp"

namespace gloam::decide {

/// What a leader may see of the sky in the small hours, and how much it changes the odds.
struct SeenSign {
    std::string_view word;  ///< as typed
    std::string_view means;
    double likelihood_ratio = 1.0;  ///< how much oftener it is seen before a good dawn than before a poor one
};

/// The signs that are known. Ratios are starting rules, no source: (count when good + 0.5) / (good + 1) over
/// the same for poor, once logged, replaces them.
inline constexpr std::array<SeenSign, 4> kSeenSigns{{
    {"stars-low", "stars down to the horizon towards the dawn, at most thin streaks of high cloud", 2.5},
    {"bank", "a dark bank of cloud low towards the dawn", 0.4},
    {"no-stars", "no star anywhere", 0.4},
    {"drizzle", "drizzle or rain", 0.2},
}};

/// A sign by its word; error (kBadInput) that lists the words.
Result<SeenSign> seen_sign(std::string_view word);

/// Odds after a sign: o' = o x ratio, o = p / (1 - p), kept within .02 and .98 like all odds shown. One look
/// counts once: signs of the same cloud must not be multiplied. odds in (0, 1), ratio > 0.
double odds_after(double odds, double likelihood_ratio);

}  // namespace gloam::decide
