#pragma once

#include <vector>

#include "astro/ephemeris.hpp"
#include "astro/station.hpp"
#include "astro/vec3.hpp"
#include "base/instant.hpp"
#include "geo/zone.hpp"

namespace gloam::astro {

/// A body's geocentric place over a span of time, computed once at nodes and interpolated between them: the
/// sun moves a degree a day there, the Earth's turn comes afterwards. Building costs some 40 us a day of span
/// plus 0.2 ms, each look 0.4 us. Nodes stand on a fixed grid (midnights UTC for the sun, every six hours for
/// the moon), so that tracks of different spans give the same answer to the last bit.
///
/// Accuracy: 0.001" from
/// position_of (tests/astro/track.cpp). Method: Lagrange's polynomial through six nodes.
class Track {
  public:
    Track(Body body, geo::InstantSpan span);

    /// Apparent geocentric place, metres, in the Earth's own frame. An instant outside the span throws
    /// InternalError.
    Vec3 place_at(Instant instant) const;
    /// What is seen from the station; same rule for the instant.
    BodyPosition seen_from(const Station& station, Instant instant) const;

  private:
    Body body_;
    Duration step_;
    Duration::rep first_node_ = 0;  ///< nodes count from 1970 in steps
    std::vector<Vec3> nodes_;       ///< metres, celestial intermediate frame of date
};

}  // namespace gloam::astro
