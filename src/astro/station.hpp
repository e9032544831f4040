#pragma once

#include "astro/ephemeris.hpp"
#include "astro/vec3.hpp"

namespace gloam::astro {

/// The observer in the Earth's own frame, ready to look: turns a geocentric place into azimuth and altitude.
class Station {
  public:
    explicit Station(const Observer& observer);

    /// What the station sees of a body whose apparent geocentric place is `place_m`, metres, in the Earth's
    /// frame: with diurnal parallax and aberration, without air.
    BodyPosition look_at(Body body, Vec3 place_m) const;

  private:
    Vec3 place_m_;
    Vec3 east_;
    Vec3 north_;
    Vec3 up_;
};

}  // namespace gloam::astro
