#pragma once

#include <vector>

#include "base/error.hpp"
#include "base/kinds.hpp"
#include "sky/cloud_field.hpp"
#include "sky/panorama.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::sky {

/// One point of the edge between land and sky, as seen from a stand.
struct SkylinePoint {
    Azimuth bearing;
    Angle elevation;
    double distance_m = 0.0;
};

/// Where land ends and sky begins round one stand. Between its points elevation and distance are linear in
/// bearing.
class Skyline {
  public:
    /// Points in any order. Errors (kBadInput): none; two at one bearing; an elevation outside -10 to 80 deg;
    /// a distance outside 10 m to 300 km.
    static Result<Skyline> of(std::vector<SkylinePoint> points);

    SkylinePoint at(Azimuth bearing) const;

  private:
    explicit Skyline(std::vector<SkylinePoint> points) : points_(std::move(points)) {}

    std::vector<SkylinePoint> points_;  ///< by bearing
};

/// The skyline's edge on the half circle about the sun, left to right, in the coordinates of the light path:
/// what CloudField takes to cut the sun's rays.
std::vector<PathPoint> land_edge(const Skyline& skyline, double viewer_height_m, Azimuth sun);

/// Puts land before the finished sky of a panorama (add_night() done) in every direction below the skyline:
/// level land of the air's albedo, lit by the panorama's own sky, with the air in front of it by Koschmieder
/// 1924 (air in front is as bright as the sky behind, as far as it is dense). Known to a factor 2: slopes,
/// woods and shadow are not in it.
void put_land(const Skyline& skyline, Azimuth sun, const Air& air, double viewer_height_m,
              Panorama& panorama);

}  // namespace gloam::sky
