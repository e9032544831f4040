#pragma once

#include "base/kinds.hpp"
#include "geo/position.hpp"

namespace gloam::geo {

/// Where one arrives and which way one then heads.
struct Arrival {
    LatLon at;
    Azimuth heading;
};

/// The end of the geodesic of `distance_m` metres (negative: backwards) that leaves `from` towards `heading`.
/// At a pole the heading counts from the meridian that `from` names. Accuracy: 15 nm. Source: Karney 2013,
/// Algorithms for geodesics, J. Geodesy 87, 43 (GeographicLib, WGS 84).
Arrival travel(LatLon from, Azimuth heading, double distance_m);

/// Length of the shortest geodesic, metres, and its azimuth at the start.
struct Separation {
    double distance_m = 0.0;
    Azimuth azimuth;
};

/// The shortest way between two points of the ellipsoid. Accuracy and source: see `travel`. The azimuth
/// between equal points means nothing; between opposite points any of the shortest ways is taken.
Separation separation(LatLon from, LatLon to);

}  // namespace gloam::geo
