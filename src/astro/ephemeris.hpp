#pragma once

#include "base/instant.hpp"
#include "base/kinds.hpp"
#include "geo/position.hpp"

namespace gloam::astro {

/// Where the observer stands.
struct Observer {
    geo::LatLon at;
    HeightMsl height;
};

enum class Body { kSun, kMoon };

/// Airless topocentric place of a body's centre.
struct BodyPosition {
    Azimuth azimuth;
    TrueAltitude altitude;
    double distance_m = 0.0;
    Angle semidiameter;
};

BodyPosition position_of(Body body, const Observer& observer, Instant instant);

}  // namespace gloam::astro
