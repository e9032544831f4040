#pragma once

#include "astro/ephemeris.hpp"

namespace gloam::astro {

/// Angle between sun and observer as seen from the moon: 0 full, 180 deg new. `sun` and `moon` as the same
/// observer sees them. Source: Meeus, Astronomical Algorithms, eq. 48.3 (from memory). Accuracy 0.05 deg
/// (tests/reference/astro/moon_phase.cpp).
Angle phase_angle(const BodyPosition& sun, const BodyPosition& moon);

}  // namespace gloam::astro
