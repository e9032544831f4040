// Cover from humidity: closed forms.
#include "weather/humidity_cover.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "weather/made_fields.hpp"

namespace gloam::weather {
namespace {

TEST(CriticalHumidity, IsNineTenthsAtSeaLevelAndSevenTenthsAloft) {
    EXPECT_DOUBLE_EQ(critical_humidity(101325.0), 0.9);
    EXPECT_NEAR(critical_humidity(300e2), 0.7, 1e-12);
    EXPECT_NEAR(critical_humidity(101325.0 / std::pow(2.0, 0.25)), 0.7 + 0.2 / std::exp(1.0), 1e-12);
}

TEST(CriticalHumidity, FallsWithHeight) {
    double below = critical_humidity(1050e2);
    for (double pressure_pa = 1000e2; pressure_pa >= 600e2; pressure_pa -= 50e2) {
        EXPECT_LT(critical_humidity(pressure_pa), below);
        below = critical_humidity(pressure_pa);
    }
}

class CoverFromHumidity : public ::testing::TestWithParam<double> {};

TEST_P(CoverFromHumidity, IsNoneAtTheCriticalAndFullAtSaturation) {
    const double critical = critical_humidity(GetParam());
    EXPECT_NEAR(cover_from_humidity(critical, GetParam()), 0.0, 1e-12);
    EXPECT_EQ(cover_from_humidity(critical - 0.1, GetParam()), 0.0);
    EXPECT_EQ(cover_from_humidity(0.0, GetParam()), 0.0);
    EXPECT_EQ(cover_from_humidity(1.0, GetParam()), 1.0);
    EXPECT_EQ(cover_from_humidity(1.6, GetParam()), 1.0);
}

TEST_P(CoverFromHumidity, IsAHalfWhereAQuarterOfTheCriticalDeficitIsLeft) {
    const double quarter = 0.25 * (1.0 - critical_humidity(GetParam()));
    EXPECT_NEAR(cover_from_humidity(1.0 - quarter, GetParam()), 0.5, 1e-12);
}

INSTANTIATE_TEST_SUITE_P(, CoverFromHumidity, ::testing::Values(1000e2, 850e2, 500e2, 250e2, 10e2));

TEST(HumidityCover, IsThatOfEachCell) {
    Field humidity = masked(3, on_level(Quantity::kRelativeHumidity, 500e2, 0.9));
    humidity.values[1] = 0.2F;
    const Field cover = humidity_cover(humidity);
    EXPECT_EQ(cover.quantity, Quantity::kCloudCover);
    EXPECT_FLOAT_EQ(cover.values[0], static_cast<float>(cover_from_humidity(0.9F, 500e2)));
    EXPECT_EQ(cover.values[1], 0.0F);
    EXPECT_EQ(cover.present[3], 0);
    EXPECT_EQ(cover.values[3], 0.0F);
}

TEST(HumidityCover, OfNoNumberIsACoverAllTheSame) {
    Field humidity = on_level(Quantity::kRelativeHumidity, 500e2, 0.9);
    humidity.values[0] = std::numeric_limits<float>::quiet_NaN();
    humidity.values[1] = std::numeric_limits<float>::infinity();
    humidity.values[2] = -std::numeric_limits<float>::infinity();
    for (const float value : humidity_cover(humidity).values) {
        EXPECT_GE(value, 0.0F);
        EXPECT_LE(value, 1.0F);
    }
}

}  // namespace
}  // namespace gloam::weather
