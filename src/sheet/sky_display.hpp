#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "sky/colour.hpp"

namespace gloam::sheet {

/// The luminance that a meter reading EV (ISO 100) stands for, cd m-2: K 2^EV / 100 with K = 12.5 (ISO
/// 2720:1974 allows 10.6 to 13.4), and back.
double luminance_of_ev(double ev100);
double ev_of_luminance(double cd_m2);

/// Encoded sRGB, 0..1.
using DisplayColour = std::array<double, 3>;

/// How a camera on daylight white balance shows `light` when the meter read `ev100`: what the meter read
/// stands 2.3 stops (a factor 5) below white. Linear sRGB of XYZ over white; colours outside go towards the
/// grey of their luminance; bent above 0.8 towards white; sRGB curve (docs/painting.md).
DisplayColour displayed(const sky::Xyz& light, double ev100);

/// A picture as a screen shows it, row by row.
struct DisplayPicture {
    int width_px = 0;
    int height_px = 0;
    std::vector<DisplayColour> pixels;
};

}  // namespace gloam::sheet
