#include "air/standard_atmosphere.hpp"

#include <gtest/gtest.h>

#include <utility>

namespace gloam::air {
namespace {

TEST(StandardAtmosphere, SeaLevelHasTheDefiningValues) {
    const AirState air = standard_atmosphere(0.0);
    EXPECT_DOUBLE_EQ(air.temperature_k, 288.15);
    EXPECT_DOUBLE_EQ(air.pressure_pa, 101325.0);
    EXPECT_DOUBLE_EQ(air.relative_density, 1.0);
}

TEST(StandardAtmosphere, PressureFallsWithHeightWithoutAJump) {
    double below_pa = standard_atmosphere(-5.0e3).pressure_pa;
    for (double height_m = -4990.0; height_m <= kTopOfAir_m; height_m += 10.0) {
        const double pressure_pa = standard_atmosphere(height_m).pressure_pa;
        const double fall = 1.0 - pressure_pa / below_pa;
        ASSERT_GT(fall, 0.0) << height_m;
        ASSERT_LT(fall, 0.003) << height_m;  // 10 m over the smallest scale height of 5 km
        below_pa = pressure_pa;
    }
}

TEST(StandardAtmosphere, GradientIsTheSlopeOfTheDensity) {
    for (double height_m = 50.0; height_m < 99.0e3; height_m += 997.0) {
        const double slope = (standard_atmosphere(height_m + 1.0).relative_density -
                              standard_atmosphere(height_m - 1.0).relative_density) /
                             2.0;
        const double gradient = standard_atmosphere(height_m).relative_density_gradient_per_m;
        EXPECT_NEAR(gradient / slope, 1.0, 1e-5) << height_m;
    }
}

TEST(StandardAtmosphere, PressureAltitudeUndoesPressure) {
    for (double height_m = -600.0; height_m < 47.0e3; height_m += 373.0) {
        EXPECT_NEAR(pressure_altitude_m(standard_atmosphere(height_m).pressure_pa), height_m, 1e-6)
            << height_m;
    }
}

// Geopotential heights of the levels of weather charts in the standard atmosphere, as every aviation handbook
// has them; the function gives geometric height, a few metres more.
TEST(StandardAtmosphere, PutsTheLevelsOfWeatherChartsWhereHandbooksDo) {
    constexpr double kRadius_m = 6356.766e3;
    for (const auto& [pressure_hpa, geopotential_m] :
         {std::pair{850.0, 1457.0}, {700.0, 3012.0}, {500.0, 5574.0}, {300.0, 9164.0}, {200.0, 11784.0}}) {
        const double height_m = pressure_altitude_m(100.0 * pressure_hpa);
        EXPECT_NEAR(height_m * kRadius_m / (kRadius_m + height_m), geopotential_m, 1.0) << pressure_hpa;
    }
}

}  // namespace
}  // namespace gloam::air
