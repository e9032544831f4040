#include "astro/dip.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/check.hpp"

namespace gloam::astro {
namespace {

TEST(Dip, OverSeaIsThatOfTheNavigationTables) {
    const struct {
        double height_m;
        double dip_arcmin;
    } table[] = {{1.6, 2.2}, {10, 5.6}, {100, 17.6}, {1000, 55.7}, {3000, 96.4}};
    for (const auto& line : table) {
        EXPECT_NEAR(dip({line.height_m}, kOverSea).arcminutes(), line.dip_arcmin, 0.02 * line.dip_arcmin);
    }
}

TEST(Dip, WithoutAirIsTheGeometricOne) {
    EXPECT_NEAR(dip({100.0}, kNoAir).arcminutes(), 1.926 * 10.0, 0.02);
    EXPECT_NEAR(dip({0.01}, kNoAir).arcminutes(), 1.926 * 0.1, 0.0003);
}

TEST(Dip, WithoutAirIsTheDepressionAtWhichACloudLosesTheSun) {
    const struct {
        double base_km;
        double depression_deg;
    } table[] = {{1, 1.015}, {2, 1.435}, {3, 1.758},  {4, 2.03},
                 {6, 2.486}, {8, 2.870}, {10, 3.208}, {12, 3.514}};
    for (const auto& line : table) {
        EXPECT_NEAR(dip({line.base_km * 1e3}, kNoAir).degrees(), line.depression_deg, 0.002);
    }
}

TEST(Dip, AtTheSurfaceIsNothingAndBelowItABrokenPromise) {
    EXPECT_EQ(dip({0.0}, kOverSea).radians(), 0.0);
    EXPECT_THROW(dip({-1.0}, kOverSea), InternalError);
    EXPECT_THROW(dip({std::nan("")}, kOverSea), InternalError);
}

TEST(Dip, ShrinksWithRefraction) {
    EXPECT_LT(dip({500.0}, kOverSea), dip({500.0}, kOverLandByDay));
    EXPECT_LT(dip({500.0}, kOverLandByDay), dip({500.0}, kNoAir));
}

}  // namespace
}  // namespace gloam::astro
