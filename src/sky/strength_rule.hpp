#pragma once

#include <cmath>

/// The constants of colour strength (docs/sky.md, section 7), for colour_strength() of a panorama and of a
/// mixed sky.
namespace gloam::sky {

/// A camera on daylight white balance with the sky exposed 2.3 stops below white.
inline constexpr double kWhiteOverMean = 5.0;
/// Glare bleaches, as on a photograph: linear to the knee, then bent towards 1.2.
inline constexpr double kKnee = 0.8;
inline constexpr double kRoom = 0.4;
inline constexpr double kLeastChroma = 12.0;
/// Hues count in full within 40 deg of crimson to orange, and a tenth from 85 deg on.
inline constexpr double kWarmest_deg = 25.0;
inline constexpr double kFullHue_deg = 40.0;
inline constexpr double kLeastHue_deg = 85.0;
inline constexpr double kLeastHue = 0.1;
/// Darker colours count less.
inline constexpr double kFullLightness = 40.0;
inline constexpr double kFrameWidth_deg = 84.0;
inline constexpr double kFrameHeight_deg = 38.0;
/// Of a frame its mean counts, and the mean of its most colourful part.
inline constexpr double kVividShare = 0.30;
inline constexpr double kMeanWeight = 0.5;
inline constexpr double kVividWeight = 0.3;
/// High up the sky counts less in the mean of all of it.
inline constexpr double kHighUp_deg = 40.0;
inline constexpr double kHighUpWeight = 0.6;
inline constexpr double kFrameShare = 0.55;
inline constexpr double kScale = 12.0;

/// How the eye dims colour at a luminance: the fourth root of CIECAM02's luminance adaptation factor.
/// Source: CIE 159:2004, from memory.
inline double eye_adaptation(double adapting_cd_m2) {
    const double five = 5.0 * adapting_cd_m2;
    const double k = 1.0 / (five + 1.0);
    const double k4 = k * k * k * k;
    return std::pow(0.2 * k4 * five + 0.1 * (1.0 - k4) * (1.0 - k4) * std::cbrt(five), 0.25);
}

}  // namespace gloam::sky
