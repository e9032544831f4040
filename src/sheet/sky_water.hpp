#pragma once

#include <vector>

#include "sheet/sky_dome.hpp"

namespace gloam::sheet {

/// Calm water to the horizon: a mirror that small waves make rough, with Fresnel's reflectance, the sun's
/// glitter and little light from below the surface. Smooth: no single wave is drawn.
class Water {
  public:
    explicit Water(const SkyDome& dome);

    /// Light of a direction below the level, cd m-2.
    sky::Xyz light_at(const SkyDirection& direction) const;

  private:
    double sun_elevation_rad_;
    sky::Xyz sun_beam_;              ///< on a plane that faces it, lx as Y
    std::vector<sky::Xyz> surface_;  ///< without the glitter, [depression][azimuth]
};

}  // namespace gloam::sheet
