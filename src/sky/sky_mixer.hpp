#pragma once

#include <array>
#include <cstddef>

#include "sky/cloud_lines.hpp"
#include "sky/colour_strength.hpp"
#include "sky/sky_palette.hpp"

namespace gloam::sky {

/// A panorama on the standard grid, by component: of each layer the lit and the unlit part, then clear air.
/// The same numbers as Panorama's patches, laid out for arithmetic on whole rows.
struct MixedSky {
    static constexpr std::size_t kDirections = kGridRows * kGridColumns;
    using Plane = std::array<float, kDirections>;  ///< [row][column]
    struct Component {
        Plane share{};
        std::array<Plane, 3> xyz{};  ///< cd m-2
    };
    std::array<Component, 2 * kMostLayers + 1> components;
    std::size_t count = 0;                         ///< components in use; the last is clear air
    std::array<std::size_t, kMostLayers> layer{};  ///< of the cloud field, by pair of components

    Panorama panorama(const SunState& sun) const;
};

/// The sky of one cloud field at one moment: what SkyPainter paints, by mixing the triplets of a palette.
/// What it leaves out: light of a step is blocked as if P went straight from level to level (levels hug every
/// layer), and P as if its logarithm went straight between places along the path. Against SkyPainter over
/// 10 000 random skies: docs/sky.md, section 14. At most kMostLayers layers.
void mix(const SkyPalette& palette, const CloudLines& clouds, double sun_distance_au, MixedSky& sky);

/// colour_strength() of the panorama that a mixed sky is: within 0.1 of it (tests/sky/sky_mixer.cpp).
ColourStrength colour_strength(const MixedSky& sky);

}  // namespace gloam::sky
