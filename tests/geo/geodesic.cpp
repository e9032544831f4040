#include "geo/geodesic.hpp"

#include <gtest/gtest.h>

#include <random>

namespace gloam::geo {
namespace {

TEST(Geodesic, FlindersPeakToBuninyongIsAsPublished) {
    // Geocentric Datum of Australia technical manual, worked example (GRS 80; WGS 84 differs by less than a
    // millimetre): 54972.271 m, azimuth 306 52 05.37.
    const LatLon flinders_peak{-(37.0 + 57.0 / 60.0 + 3.72030 / 3600.0),
                               144.0 + 25.0 / 60.0 + 29.52440 / 3600.0};
    const LatLon buninyong{-(37.0 + 39.0 / 60.0 + 10.15610 / 3600.0),
                           143.0 + 55.0 / 60.0 + 35.38390 / 3600.0};
    const Separation way = separation(flinders_peak, buninyong);
    EXPECT_NEAR(way.distance_m, 54972.271, 0.002);
    EXPECT_NEAR(way.azimuth.degrees(), 306.0 + 52.0 / 60.0 + 5.37 / 3600.0, 1e-5);
}

TEST(Geodesic, AQuarterMeridianIsTenThousandKilometres) {
    EXPECT_NEAR(separation({0.0, 15.0}, {90.0, 0.0}).distance_m, 10001965.729, 0.001);  // WGS 84
}

TEST(Geodesic, TravelArrivesWhereSeparationStarted) {
    std::mt19937_64 random(20250129);
    std::uniform_real_distribution<double> lat(-89.9, 89.9);
    std::uniform_real_distribution<double> lon(-180.0, 180.0);
    std::uniform_real_distribution<double> power(0.0, 7.0);
    for (int i = 0; i < 1000; ++i) {
        const LatLon from{lat(random), lon(random)};
        const double distance_m = std::pow(10.0, power(random));
        const Azimuth heading = Azimuth::degrees(lon(random));
        const Arrival arrival = travel(from, heading, distance_m);
        const Separation way = separation(from, arrival.at);
        ASSERT_NEAR(way.distance_m, distance_m, 1e-5) << to_text(from);
        ASSERT_LT(separation(travel(from, way.azimuth, way.distance_m).at, arrival.at).distance_m, 1e-5);
        ASSERT_GE(arrival.at.lon_deg, -180.0);
        ASSERT_LT(arrival.at.lon_deg, 180.0);
    }
}

TEST(Geodesic, BackwardsIsForwardsTurnedRound) {
    const Arrival back = travel({50.0, 10.0}, Azimuth::degrees(30.0), -20.0e3);
    const Arrival forth = travel({50.0, 10.0}, Azimuth::degrees(210.0), 20.0e3);
    EXPECT_LT(separation(back.at, forth.at).distance_m, 1e-6);
    EXPECT_NEAR(turn(back.heading, forth.heading).degrees(), 180.0, 1e-9);
}

TEST(Geodesic, CrossesTheDateLine) {
    const Arrival arrival = travel({-16.85, 179.95}, Azimuth::degrees(90.0), 20.0e3);
    EXPECT_NEAR(arrival.at.lon_deg, -179.862, 0.001);
    EXPECT_NEAR(separation({0.0, 179.9}, {0.0, -179.9}).azimuth.degrees(), 90.0, 1e-9);
}

TEST(Geodesic, EqualPointsAreNoDistanceApart) {
    EXPECT_EQ(separation({12.0, 34.0}, {12.0, 34.0}).distance_m, 0.0);
}

}  // namespace
}  // namespace gloam::geo
