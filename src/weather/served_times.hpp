#pragma once

#include <chrono>

#include "weather/layers.hpp"

namespace gloam::weather {

/// How long before the first step and after the last a step at an instant still serves. A mean over a span
/// serves the whole of it and no longer.
inline constexpr Duration kStepReach = std::chrono::minutes(90);

/// Whether every member can be asked for this instant.
bool serves(const LayeredForecast& forecast, Instant instant);

/// The steps on either side of an instant and the weight of the later one; the same step twice where one
/// alone serves.
struct StepBlend {
    const LayerStep* earlier = nullptr;
    const LayerStep* later = nullptr;
    double later_share = 0.0;  ///< 0..1
};

/// The blend of a member at `instant` read `delay` later, the delay held within the span of the steps. Of
/// means over spans the shortest that holds the time is read, the earlier of two as short; between spans the
/// nearest. Error (kOutOfDomain), naming both times, if `instant` itself is not served.
Result<StepBlend> blend_at(const LayeredMember& member, Instant instant, Duration delay);

/// Length in hours of the span whose mean is read at `instant`, or nearest to it; 0 where steps are instants.
double span_hours_at(const LayeredMember& member, Instant instant);

}  // namespace gloam::weather
