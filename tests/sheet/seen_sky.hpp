#pragma once

#include <vector>

#include "outlook/member_sky.hpp"
#include "sheet/sky_light.hpp"
#include "sky/scene.hpp"

/// Skies made by hand, over the sea, the sun in the south-east.
namespace gloam::sheet::example {

inline outlook::SeenSky seen_sky(std::vector<sky::CloudLayer> layers, double sun_deg) {
    static const sky::SkyPainter kPainter(test::default_air(), 0.0, drawing_grid());
    return outlook::see_sky(test::default_air(), kPainter, 0.0, sky::CloudField(std::move(layers)),
                            {Azimuth::degrees(112.0), test::sun_at(sun_deg)});
}

}  // namespace gloam::sheet::example
