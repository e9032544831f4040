#include "astro/shadow.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/check.hpp"

namespace gloam::astro {
namespace {

constexpr double kRadius_m = 6371.0e3;

/// Overhead frame: the observer on the z axis, the sun in the x-z plane at this depression.
Vec3 to_sun(double depression_deg) {
    const double d = Angle::degrees(depression_deg).radians();
    return {std::cos(d), 0.0, -std::sin(d)};
}

TEST(Shadow, HeightOverheadIsThatOfTheTable) {
    const struct {
        double depression_deg;
        double height_km;
    } table[] = {{1, 0.97}, {2, 3.88}, {3, 8.74}, {4, 15.6}, {5, 24.3}, {6, 35.1}};
    for (const auto& line : table) {
        EXPECT_NEAR(shadow_height_m(Angle::degrees(line.depression_deg)) / 1e3, line.height_km,
                    0.005 * line.height_km);
    }
}

TEST(Shadow, ThereIsNoneWithTheSunUp) {
    EXPECT_EQ(shadow_height_m(Angle::degrees(0.0)), 0.0);
    EXPECT_EQ(shadow_height_m(Angle::degrees(-12.0)), 0.0);
    EXPECT_THROW(shadow_height_m(Angle::degrees(90.0)), InternalError);
}

TEST(Shadow, TheEdgeOverheadIsWhereTheTestOfAPointTurns) {
    for (const double depression_deg : {0.5, 1.0, 4.0, 8.0, 18.0, 60.0}) {
        const double edge_m = shadow_height_m(Angle::degrees(depression_deg));
        EXPECT_TRUE(in_earth_shadow({0.0, 0.0, kRadius_m + edge_m * 0.999}, to_sun(depression_deg)));
        EXPECT_FALSE(in_earth_shadow({0.0, 0.0, kRadius_m + edge_m * 1.001}, to_sun(depression_deg)));
    }
}

TEST(Shadow, TheDaySideIsNeverInIt) {
    EXPECT_FALSE(in_earth_shadow({0.0, 0.0, kRadius_m}, to_sun(-0.01)));
    EXPECT_FALSE(in_earth_shadow({0.5 * kRadius_m, 0.0, 0.0}, to_sun(0.0)));
    EXPECT_TRUE(in_earth_shadow({0.0, 0.0, kRadius_m}, to_sun(0.1)));
}

TEST(Shadow, ALineOfSightTowardsTheAntisolarPointLeavesItWhereGeometrySays) {
    // Distance R (1 - cos d) / sin(e - d) along elevation e above the antisolar azimuth, for e > d only.
    const double d = Angle::degrees(3.0).radians();
    for (const double elevation_deg : {4.0, 6.0, 15.0, 45.0}) {
        const double e = Angle::degrees(elevation_deg).radians();
        const double edge_m = kRadius_m * (1.0 - std::cos(d)) / std::sin(e - d);
        const auto point = [&](double distance_m) {
            return Vec3{-std::cos(e) * distance_m, 0.0, kRadius_m + std::sin(e) * distance_m};
        };
        EXPECT_TRUE(in_earth_shadow(point(edge_m * 0.995), to_sun(3.0))) << elevation_deg;
        EXPECT_FALSE(in_earth_shadow(point(edge_m * 1.005), to_sun(3.0))) << elevation_deg;
    }
    const double e = Angle::degrees(2.9).radians();
    EXPECT_TRUE(in_earth_shadow({-std::cos(e) * 1e9, 0.0, kRadius_m + std::sin(e) * 1e9}, to_sun(3.0)));
}

}  // namespace
}  // namespace gloam::astro
