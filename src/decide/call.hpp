#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "base/error.hpp"

namespace gloam::decide {

enum class Decision { kGo, kStay, kLookAgain };

/// "go", "stay" or "look_again".
std::string_view name_of(Decision decision);

/// Odds that the class the leader wants, or better, is reached; and the same under each way to read an
/// ambiguous forecast.
struct Chances {
    double odds = 0.0;
    std::optional<std::array<double, 3>> by_reading;
};

/// A decision and what it was held against.
struct Call {
    Decision decision = Decision::kStay;
    double odds = 0.0;
    double threshold = 0.0;
};

/// Threshold of someone who would give `starts_for_one` early starts for nothing to get one good dawn: 1 / (n
/// + 1). n from 0 to 100.
Result<double> threshold_for(double starts_for_one);

/// Starts for one that are assumed where nobody said: 2 for a dawn, 6 for a dusk (nobody has to get up for
/// it).
inline constexpr double kStartsForOneDawn = 2.0;
inline constexpr double kStartsForOneDusk = 6.0;

/// Go if the odds are above the threshold (Murphy 1977: cost-loss with alpha = C/L). If the forecast can be
/// read in several ways that do not agree on the answer, look again.
Call decide(const Chances& chances, double threshold);

}  // namespace gloam::decide
