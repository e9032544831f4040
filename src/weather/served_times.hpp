#pragma once

#include <chrono>
#include <vector>

#include "weather/layers.hpp"

namespace gloam::weather {

/// How long before the first step and after the last a step still serves.
inline constexpr Duration kStepReach = std::chrono::minutes(90);

/// Whether every member can be asked for this instant: between its steps, or at most kStepReach outside them.
bool serves(const LayeredForecast& forecast, Instant instant);

/// The valid times of all steps of all members, in order, each once.
std::vector<Instant> valid_times(const LayeredForecast& forecast);

/// The steps on either side of an instant and the weight of the later one; the same step twice where one
/// alone serves.
struct StepBlend {
    const LayerStep* earlier = nullptr;
    const LayerStep* later = nullptr;
    double later_share = 0.0;  ///< 0..1
};

/// The blend of a member at `instant` read `delay` later, the delay held within the span of the steps. Error
/// (kOutOfDomain), naming both times, if `instant` itself is not served.
Result<StepBlend> blend_at(const LayeredMember& member, Instant instant, Duration delay);

}  // namespace gloam::weather
