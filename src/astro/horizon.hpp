#pragma once

#include <optional>

#include "base/error.hpp"
#include "base/kinds.hpp"

namespace gloam::astro {

/// Where a level horizon stands for an eye at `eye` that looks over a surface `above` (0 or more) below it:
/// minus the dip, in the US Standard Atmosphere 1976, by Bouguer's law n r cos a = const along the ray that
/// grazes the surface. A surface below sea level is taken to lie, with the eye above it, at sea level: 4 %
/// less air than at the Dead Sea, 0.02 deg.
ApparentAltitude level_horizon(HeightMsl eye, HeightAboveHorizon above);

/// True altitude of the sun's centre at the moment its upper limb touches the horizon: the `skyline` towards
/// the sun if given, else the level one. The ray is traced through the standard atmosphere; the semidiameter
/// is the mean 16' (it varies by 0.3'). Over the sea at sea level this gives -49', where convention has -50'.
/// Accuracy: that of the real air on the day, sd 0.16 to 0.18 deg (Sampson et al. 2003, PASP 115, 1256).
/// Errors: a negative `above` (kBadInput); a skyline so low that its ray meets the ground (kOutOfDomain).
Result<TrueAltitude> sun_centre_at_horizon(HeightMsl eye, HeightAboveHorizon above,
                                           std::optional<ApparentAltitude> skyline = std::nullopt);

}  // namespace gloam::astro
