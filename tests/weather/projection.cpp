// Maps: what they keep, and maps that are none.
#include "weather/projection.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <limits>

#include "geo/geodesic.hpp"

namespace gloam::weather {
namespace {

using ::testing::HasSubstr;

const EarthShape kWgs84{6378137.0, 1.0 / 298.257223563};
const LambertMap kEurope{kWgs84, 35.0, 65.0, 10.0};
const PolarMap kNorth{kWgs84, false, 70.0, -45.0};
const PolarMap kSouth{kWgs84, true, -71.0, 0.0};

double on_map_m(const Projection& map, geo::LatLon from, geo::LatLon to) {
    const PlanePoint a = map.plane_point(from);
    const PlanePoint b = map.plane_point(to);
    return std::hypot(b.x_m - a.x_m, b.y_m - a.y_m);
}

/// Length on the map of a metre to the north at a place.
double scale(const Projection& map, geo::LatLon at) {
    const geo::LatLon to = geo::travel(at, Azimuth::degrees(0.0), 1000.0).at;
    return on_map_m(map, at, to) / 1000.0;
}

TEST(Projections, LeadBack) {
    for (const auto& map : {lambert(kEurope), polar_stereographic(kNorth), polar_stereographic(kSouth)}) {
        for (const geo::LatLon place :
             {geo::LatLon{50.0, 10.0}, {71.0, -180.0}, {30.0, -45.0}, {-60.0, 120.0}, {0.0, 0.0}}) {
            const geo::LatLon again = (*map)->place((*map)->plane_point(place));
            EXPECT_LT(geo::separation(place, again).distance_m, 1e-3) << geo::to_text(place);
        }
    }
}

TEST(Projections, AreTrueToScaleWhereTheySaySo) {
    EXPECT_NEAR(scale(**lambert(kEurope), {35.0, -3.0}), 1.0, 1e-4);
    EXPECT_NEAR(scale(**lambert(kEurope), {65.0, 30.0}), 1.0, 1e-4);
    EXPECT_NEAR(scale(**polar_stereographic(kNorth), {70.0, 100.0}), 1.0, 1e-4);
    EXPECT_NEAR(scale(**polar_stereographic(kSouth), {-71.0, 100.0}), 1.0, 1e-4);
}

TEST(Projections, RunUpTheirMeridianWithRisingLatitude) {
    const auto expect_upward = [](const Projection& map, double lat_deg, double lon_deg) {
        const PlanePoint low = map.plane_point({lat_deg, lon_deg});
        const PlanePoint high = map.plane_point({lat_deg + 1.0, lon_deg});
        EXPECT_NEAR(low.x_m, 0.0, 1e-6);
        EXPECT_NEAR(high.x_m, 0.0, 1e-6);
        EXPECT_GT(high.y_m, low.y_m + 1.0e5);
    };
    expect_upward(**lambert(kEurope), 50.0, 10.0);
    expect_upward(**polar_stereographic(kNorth), 60.0, -45.0);
    expect_upward(**polar_stereographic(kSouth), -60.0, 0.0);
}

TEST(Projections, AreTheSameForTheSameMapAlone) {
    const auto europe = *lambert(kEurope);
    EXPECT_TRUE(europe->same_as(**lambert({kWgs84, 35.0, 65.0, 370.0 - 360.0})));
    EXPECT_FALSE(europe->same_as(**lambert({kWgs84, 35.0, 60.0, 10.0})));
    EXPECT_FALSE(europe->same_as(**lambert({{6371229.0, 0.0}, 35.0, 65.0, 10.0})));
    EXPECT_FALSE(europe->same_as(**polar_stereographic(kNorth)));
    EXPECT_FALSE((*polar_stereographic(kNorth))->same_as(*europe));
    EXPECT_FALSE((*polar_stereographic(kNorth))->same_as(**polar_stereographic(kSouth)));
    EXPECT_TRUE((*polar_stereographic(kNorth))->same_as(**polar_stereographic({kWgs84, false, 70.0, 315.0})));
}

TEST(Projections, HaveNames) {
    EXPECT_EQ((*lambert(kEurope))->name(), "Lambert");
    EXPECT_EQ((*polar_stereographic(kSouth))->name(), "polar stereographic");
}

TEST(Projections, OfNoMapAreErrors) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_FALSE(lambert({kWgs84, nan, 65.0, 10.0}));
    EXPECT_FALSE(lambert({kWgs84, 35.0, 91.0, 10.0}));
    EXPECT_FALSE(lambert({kWgs84, 35.0, 65.0, nan}));
    EXPECT_FALSE(lambert({{nan, 0.0}, 35.0, 65.0, 10.0}));
    EXPECT_FALSE(lambert({{-1.0, 0.0}, 35.0, 65.0, 10.0}));
    EXPECT_FALSE(polar_stereographic({kWgs84, false, nan, 10.0}));
    EXPECT_FALSE(polar_stereographic({{0.0, 0.0}, false, 60.0, 10.0}));
    EXPECT_FALSE(polar_stereographic({kWgs84, false, 60.0, std::numeric_limits<double>::infinity()}));
}

}  // namespace
}  // namespace gloam::weather
