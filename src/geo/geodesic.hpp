#pragma once

#include "base/kinds.hpp"
#include "geo/position.hpp"

namespace gloam::geo {

/// Where one arrives and which way one then heads after a geodesic of `distance_m` (may be negative).
struct Arrival {
    LatLon at;
    Azimuth heading;
};
Arrival travel(LatLon from, Azimuth heading, double distance_m);

/// Length of the geodesic and its azimuth at the start.
struct Separation {
    double distance_m = 0.0;
    Azimuth azimuth;
};
Separation separation(LatLon from, LatLon to);

}  // namespace gloam::geo
