// The spherical frame of the light path against geodesics on the ellipsoid.
#include "weather/path_frame.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geo/geodesic.hpp"

namespace gloam::weather {
namespace {

TEST(PathFrame, TheOriginIsTheViewer) {
    const geo::LatLon there = PathFrame({-43.5, 172.6}, Azimuth::degrees(77)).point(0.0, 0.0);
    EXPECT_NEAR(there.lat_deg, -43.5, 1e-12);
    EXPECT_NEAR(there.lon_deg, 172.6, 1e-12);
}

/// Greatest distance from the geodesic, over all directions, from a viewer at this latitude.
double worst_m(double lat_deg) {
    double worst = 0.0;
    const geo::LatLon viewer{lat_deg, 179.0};
    for (int azimuth_deg = 0; azimuth_deg < 360; azimuth_deg += 15) {
        const PathFrame frame(viewer, Azimuth::degrees(azimuth_deg));
        for (const double along_m : {-150.0e3, 100.0e3, 350.0e3, 700.0e3}) {
            const auto geodesic = geo::travel(viewer, Azimuth::degrees(azimuth_deg), along_m);
            worst = std::max(worst, geo::separation(frame.point(along_m, 0.0), geodesic.at).distance_m);
        }
    }
    return worst;
}

TEST(PathFrame, IsWithin2500MetresOfTheGeodesic_And1500BeyondForty) {
    for (int lat_deg = -80; lat_deg <= 80; lat_deg += 10) {
        EXPECT_LT(worst_m(lat_deg), std::abs(lat_deg) < 40 ? 2.5e3 : 1.5e3) << lat_deg;
    }
    EXPECT_GT(worst_m(0.0), 2.0e3);  // the bounds are not idle
    EXPECT_GT(worst_m(40.0), 1.4e3);
}

TEST(PathFrame, AsideIsToTheRight) {
    const geo::LatLon viewer{45.0, 10.0};
    const geo::LatLon right =
        PathFrame(viewer, Azimuth::degrees(90)).point(0.0, 40.0e3);  // facing east: south
    const auto way = geo::separation(viewer, right);
    EXPECT_NEAR(way.distance_m, 40.0e3, 200.0);
    EXPECT_NEAR(way.azimuth.degrees(), 180.0, 0.01);
}

TEST(PathFrame, LinesStayAsFarApart) {
    const PathFrame frame({45.0, 10.0}, Azimuth::degrees(112));
    for (const double along_m : {-150.0e3, 0.0, 700.0e3}) {
        EXPECT_NEAR(geo::separation(frame.point(along_m, 40.0e3), frame.point(along_m, 80.0e3)).distance_m,
                    40.0e3, 250.0);
    }
}

}  // namespace
}  // namespace gloam::weather
