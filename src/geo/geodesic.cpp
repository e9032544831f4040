#include "geo/geodesic.hpp"

#include <GeographicLib/Geodesic.hpp>

#include "base/check.hpp"

namespace gloam::geo {

Arrival travel(LatLon from, Azimuth heading, double distance_m) {
    double lat_deg = 0.0;
    double lon_deg = 0.0;
    double heading_deg = 0.0;
    GeographicLib::Geodesic::WGS84().Direct(from.lat_deg, from.lon_deg, heading.degrees(), distance_m,
                                            lat_deg, lon_deg, heading_deg);
    const auto at = make_lat_lon(lat_deg, lon_deg);
    GLOAM_CHECK(at.has_value());
    return {*at, Azimuth::degrees(heading_deg)};
}

Separation separation(LatLon from, LatLon to) {
    double distance_m = 0.0;
    double start_deg = 0.0;
    double end_deg = 0.0;
    GeographicLib::Geodesic::WGS84().Inverse(from.lat_deg, from.lon_deg, to.lat_deg, to.lon_deg, distance_m,
                                             start_deg, end_deg);
    return {distance_m, Azimuth::degrees(start_deg)};
}

}  // namespace gloam::geo
