#pragma once

#include <array>

#include "base/kinds.hpp"
#include "geo/position.hpp"

namespace gloam::weather {

/// Ground coordinates about a viewer: metres along the great circle towards the sun, and metres to the right
/// of it.
///
/// Points come from unit vectors on the sphere that touches the ellipsoid at the viewer in the direction of
/// the sun (Euler's radius of curvature). *Accuracy:* within 2.5 km of the geodesic on WGS 84 up to
/// 700 km along, within 1.5 km beyond 40 degrees of latitude, far below a forecast cell; maxima asserted by
/// the PathFrame tests.
class PathFrame {
  public:
    PathFrame(geo::LatLon viewer, Azimuth sun);

    /// A distance as an angle about the Earth's centre: worked out once for all points that share it.
    struct Turn {
        double cosine;
        double sine;
    };
    Turn turn(double distance_m) const;

    geo::LatLon point(const Turn& along, const Turn& aside) const;
    geo::LatLon point(double along_m, double aside_m) const { return point(turn(along_m), turn(aside_m)); }

  private:
    using Vector = std::array<double, 3>;
    double radius_m_;
    Vector up_;
    Vector ahead_;
    Vector right_;
};

}  // namespace gloam::weather
