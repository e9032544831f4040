#pragma once

#include <vector>

#include "sheet/sky_display.hpp"
#include "sheet/sky_dome.hpp"

namespace gloam::sheet {

/// The light of a picture, row by row, cd m-2.
struct LightPicture {
    int width_px = 0;
    int height_px = 0;
    std::vector<sky::Xyz> pixels;
};

/// The sky over calm water, as `view` frames it. The same bytes on any number of threads.
LightPicture draw_sky(const outlook::SeenSky& seen, std::uint64_t seed, const SkyView& view);

/// As a camera shows it whose meter read `ev100`.
DisplayPicture displayed(const LightPicture& picture, double ev100);

}  // namespace gloam::sheet
