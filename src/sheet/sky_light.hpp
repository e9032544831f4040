#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "sheet/sky_view.hpp"
#include "sky/panorama.hpp"

namespace gloam::sheet {

/// Directions of a panorama that pictures are drawn from: elevations crowd at the level, 0.02 to 87 deg.
sky::PanoramaGrid drawing_grid();

/// What one cloud layer shows in a direction.
struct LayerLight {
    double closed = 0.0;     ///< share of the direction that it closes, of what lower layers leave
    double lit_share = 0.0;  ///< of its cloud, 0 to 1
    sky::Xyz lit;            ///< cd m-2
    sky::Xyz unlit;

    /// Of its cloud.
    sky::Xyz mean() const { return lit * lit_share + unlit * (1.0 - lit_share); }
};

/// What is seen in a direction, part by part, from low to high; behind all layers the clear air.
struct SkyLight {
    static constexpr std::size_t kMostLayers = 3;
    std::array<LayerLight, kMostLayers> layers;
    std::size_t layer_count = 0;
    sky::Xyz clear;

    /// Of all parts by their shares.
    sky::Xyz mean() const;
};

/// A panorama as a smooth function of the direction: light cubic in its logarithm, shares cubic.
///
/// The model steps from one lit share to another 60 deg from the sun; here it slides over 45 deg, and the lit
/// part's light with it so that the mean stays.
class SkyLights {
  public:
    /// Clear air, then for each layer: shares, lit, unlit. Lights as logarithms.
    static constexpr std::size_t kValues = 3 + 8 * SkyLight::kMostLayers;
    using Node = std::array<double, kValues>;

    /// `panorama` on drawing_grid(), of a cloud field of `layer_count` layers.
    SkyLights(const sky::Panorama& panorama, std::size_t layer_count);

    /// Elevations outside those of the grid read its nearest row.
    SkyLight at(const SkyDirection& direction) const;
    std::size_t layer_count() const { return layer_count_; }

  private:
    std::size_t layer_count_;
    std::vector<Node> nodes_;  ///< [elevation][azimuth]
};

/// Mean of the luminance's logarithm over the parts of the sky below 54 deg, as that of colour strength: what
/// an exposure starts from, cd m-2. `panorama` on drawing_grid().
double adapting_luminance(const sky::Panorama& panorama);

}  // namespace gloam::sheet
