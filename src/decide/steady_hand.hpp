#pragma once

#include <optional>

#include "decide/call.hpp"

namespace gloam::decide {

/// How far odds must cross the threshold before an announced answer is turned round: flips cost trust. A
/// starting rule, no source.
inline constexpr double kReversalMargin = 0.05;

/// The small hours' answer where `announced` was said in the evening (absent: nothing was). Go above the
/// threshold; against what was announced only when past it by the margin.
Decision steady_answer(double odds, double threshold, std::optional<Decision> announced);

}  // namespace gloam::decide
