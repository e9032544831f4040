#pragma once

#include <functional>
#include <vector>

#include "base/instant.hpp"
#include "geo/zone.hpp"

namespace gloam::astro {

/// A quantity that changes smoothly over hours.
using Curve = std::function<double(Instant)>;

/// How far beyond a span `monotone_knots` looks at the curve.
inline constexpr Duration kKnotMargin = std::chrono::minutes(20);

/// Instants in order, from before the span's begin to after its end, between which the curve only rises or
/// only falls: a grid of 10 min, laid out from 1970 so that every span sees the same knots, and each turning
/// point of the curve to 0.1 s. Missed are two turning points in one cell of the grid, as the sun can have
/// them at 0.1 deg from a pole: there it moves by less than 0.0001 deg between them.
std::vector<Instant> monotone_knots(const Curve& curve, geo::InstantSpan span);

/// The first millisecond in (`before`, `after`] on the side of zero (negative, or not) where the curve has
/// `after`; the two ends must lie on different sides and the curve be monotone between them.
Instant passage(const Curve& curve, Instant before, Instant after);

}  // namespace gloam::astro
