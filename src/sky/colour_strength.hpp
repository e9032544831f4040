#pragma once

#include "base/angle.hpp"
#include "sky/panorama.hpp"

namespace gloam::sky {

/// How strongly a sky is coloured, read off its panorama.
struct ColourStrength {
    double value = 0.0;   ///< 0 to 100
    Angle best_azimuth;   ///< middle of the most coloured frame (84 deg wide), from the sun's azimuth, right
                          ///< positive
    double facing = 0.0;  ///< colour of the best frame within 90 deg of the sun, same scale
    double opposite = 0.0;  ///< the same for frames more than 90 deg from it
};

/// Colour strength of a panorama on the standard grid. Components, not mixtures, are weighed: chroma above
/// 12, warm hues full and blue a tenth, dark colours less, dimmed as the eye dims them; then the mean over
/// the sky and the best 84 deg frame (docs/sky.md). Monotone in chroma, in coloured area and in luminance. No
/// photograph or outcome has been fitted yet.
ColourStrength colour_strength(const Panorama& panorama);

}  // namespace gloam::sky
