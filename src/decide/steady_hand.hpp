#pragma once

#include <optional>

#include "decide/call.hpp"

namespace gloam::decide {

/// How far odds must cross a threshold before an announced answer is turned round: flips cost trust. A
/// starting rule, no source.
inline constexpr double kReversalMargin = 0.05;

/// Odds as they are held against thresholds in the small hours, where `announced` was said before (absent:
/// nothing was, or it was left open): past the margin in favour of what was announced. Not odds to be shown.
double held_odds(double odds, std::optional<Decision> announced);

}  // namespace gloam::decide
