#pragma once

#include <vector>

#include "sheet/sky_cloud.hpp"

namespace gloam::sheet {

/// A sky as it is drawn: clouds with form instead of shares, and the sun's disc. An illustration of the
/// panorama: its light in each neighbourhood is the panorama's, which cloud stands where in it is made up.
class SkyDome {
  public:
    /// The same seed draws the same clouds, for they stand still over the ground; `seen.panorama` on
    /// drawing_grid(). Details smaller than `pixel_rad` are left out. `seen` must outlive this.
    SkyDome(const outlook::SeenSky& seen, std::uint64_t seed, double pixel_rad);

    /// Light of a direction above the level, cd m-2, the disc included.
    sky::Xyz light_at(const SkyDirection& direction) const;
    /// The same without the disc.
    sky::Xyz light_beside_sun(const SkyDirection& direction) const { return look(direction).light; }
    /// The disc as it stands behind the drawn cloud: its mean light on a plane that faces it, lx as Y.
    sky::Xyz sun_beam() const;
    const outlook::SeenSky& seen() const { return *seen_; }
    const SkyLights& lights() const { return lights_; }

  private:
    struct Look {
        sky::Xyz light;
        double open = 1.0;  ///< how much of a small light behind all cloud comes through
    };
    Look look(const SkyDirection& direction) const;

    const outlook::SeenSky* seen_;
    SkyLights lights_;
    std::vector<CloudSheet> sheets_;
    double pixel_rad_;
};

}  // namespace gloam::sheet
