#pragma once

#include "base/instant.hpp"
#include "base/kinds.hpp"
#include "geo/position.hpp"

namespace gloam::astro {

/// Where the observer stands. The height above mean sea level is taken as height above the ellipsoid: the
/// geoid's 100 m at most shift the moon by 0.05".
struct Observer {
    geo::LatLon at;
    HeightMsl height;
};

enum class Body { kSun, kMoon };

/// Airless topocentric place of a body's centre.
struct BodyPosition {
    Azimuth azimuth;
    TrueAltitude altitude;
    double distance_m = 0.0;  ///< from the observer
    Angle semidiameter;       ///< as the observer sees it
};

/// Place of the body for the observer, by the full theory: 40 us. For many instants close together use Track,
/// which is a hundred times as fast.
///
/// Accuracy 1900 to 2100: sun 0.01 deg, moon 0.02 deg, most of it UT1 = UTC
/// and the unknown length of future days; with those as in the reference, sun 0.0001 deg and moon 0.003 deg
/// (tests/reference/astro/positions.cpp). Source: see geocentric.hpp.
BodyPosition position_of(Body body, const Observer& observer, Instant instant);

}  // namespace gloam::astro
