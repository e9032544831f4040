// Grids of synthetic messages: every scanning order, every way to count longitudes, and the grids that are
// not used.
#include <gmock/gmock.h>

#include <cmath>
#include <numbers>

#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::SyntheticGrid;
using ::testing::HasSubstr;

/// Percent; different at every point of the grids below.
double slope_percent(double lat_deg, double lon_deg) {
    const double east = lon_deg >= 180.0 ? lon_deg - 360.0 : lon_deg;
    return 50.0 + lat_deg / 4.0 + east / 8.0;
}
std::optional<double> slope(double lat_deg, double lon_deg) {
    return slope_percent(lat_deg, lon_deg);
}

class Scanning : public ::testing::TestWithParam<int> {};

TEST_P(Scanning, IsUndone) {
    const unsigned flags = static_cast<unsigned>(GetParam());
    const SyntheticGrid grid{.rows = 5,
                             .columns = 8,
                             .westward = (flags & 8U) != 0,
                             .northward = (flags & 4U) != 0,
                             .by_column = (flags & 2U) != 0,
                             .back_and_forth = (flags & 1U) != 0};
    const Forecast forecast = read(message({.grid = grid}, slope));
    const Field& field = forecast.fields.at(0);
    EXPECT_DOUBLE_EQ(regular(field).first.lat_deg, 60.0);
    EXPECT_DOUBLE_EQ(regular(field).first.lon_deg, -10.0);
    EXPECT_DOUBLE_EQ(regular(field).lat_step_deg, -1.0);
    EXPECT_DOUBLE_EQ(regular(field).lon_step_deg, 1.0);
    for (int row = 0; row < grid.rows; ++row) {
        for (int column = 0; column < grid.columns; ++column) {
            const double expected = slope_percent(60.0 - row, -10.0 + column) / 100.0;
            EXPECT_NEAR(
                static_cast<double>(field.values[static_cast<std::size_t>(row * grid.columns + column)]),
                expected, 1e-5);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(AllSixteen, Scanning, ::testing::Range(0, 16));

/// Once round the Earth, from a given meridian.
class RoundTheEarth : public ::testing::TestWithParam<double> {};

TEST_P(RoundTheEarth, IsOneGridWithoutASeam) {
    const SyntheticGrid grid{
        .north_deg = 90.0, .west_deg = GetParam(), .step_deg = 2.5, .rows = 73, .columns = 144};
    const Forecast forecast = read(message({.grid = grid}, [](double lat, double lon) {
        return std::optional(50.0 + 20.0 * std::cos(lon * std::numbers::pi / 180.0) + lat / 9.0);
    }));
    const Field& field = forecast.fields.at(0);
    EXPECT_TRUE(regular(field).wraps);
    EXPECT_GE(regular(field).first.lon_deg, -180.0);
    EXPECT_LT(regular(field).first.lon_deg, 180.0);
    for (int step = 0; step < 288; ++step) {
        const double lon_deg = -180.0 + 1.25 * step;
        const double expected = 0.5 + 0.2 * std::cos(lon_deg * std::numbers::pi / 180.0) + 0.45 / 9.0;
        EXPECT_NEAR(value_of(field, {45.0, lon_deg}), expected, 1e-4) << lon_deg;
    }
}

INSTANTIATE_TEST_SUITE_P(, RoundTheEarth, ::testing::Values(0.0, -180.0, 180.0, 2.5, 357.5));

TEST(SyntheticGrids, ARegionOverGreenwichIsNotTorn) {
    const Forecast forecast = read(message({}, slope));  // 10 W to 40 E, 350 to 40 in the file
    const Field& field = forecast.fields.at(0);
    EXPECT_FALSE(regular(field).wraps);
    EXPECT_NEAR(value_of(field, {50.0, -0.5}), slope_percent(50.0, -0.5) / 100.0, 1e-5);
    EXPECT_NEAR(value_of(field, {50.0, -10.0}), slope_percent(50.0, -10.0) / 100.0, 1e-5);
    EXPECT_NEAR(value_of(field, {50.0, 40.0}), slope_percent(50.0, 40.0) / 100.0, 1e-5);
    EXPECT_FALSE(value_at(field, {50.0, -10.5}));
    EXPECT_FALSE(value_at(field, {50.0, 40.5}));
    EXPECT_FALSE(value_at(field, {60.5, 0.0}));
    EXPECT_FALSE(value_at(field, {29.5, 0.0}));
}

TEST(SyntheticGrids, ARegionOverTheDateLineIsNotTorn) {
    const SyntheticGrid grid{.north_deg = -30.0, .west_deg = 170.0, .rows = 11, .columns = 21};
    const Forecast forecast =
        read(message({.grid = grid}, [](double, double lon) { return std::optional(lon / 4.0); }));
    const Field& field = forecast.fields.at(0);
    EXPECT_NEAR(value_of(field, {-35.0, 179.5}), 0.44875, 1e-4);
    EXPECT_NEAR(value_of(field, {-35.0, -179.5}), 0.45125, 1e-4);
    EXPECT_FALSE(value_at(field, {-35.0, 0.0}));
}

TEST(SyntheticGrids, AGridThatRepeatsItsFirstColumnHasNoSeam) {
    const SyntheticGrid grid{.north_deg = 50.0, .west_deg = 0.0, .step_deg = 10.0, .rows = 3, .columns = 37};
    const Forecast forecast = read(message({.grid = grid}, slope));
    EXPECT_DOUBLE_EQ(regular(forecast.fields.at(0)).lon_step_deg, 10.0);
    EXPECT_NEAR(value_of(forecast.fields.at(0), {40.0, -5.0}), slope_percent(40.0, -5.0) / 100.0, 1e-4);
}

TEST(SyntheticGrids, AReducedGaussianGridIsSkippedWithItsReason) {
    const Forecast forecast = read(synthetic::message_on_reduced_grid());
    ASSERT_EQ(forecast.skipped.size(), 1U);
    EXPECT_EQ(forecast.skipped[0].origin.message, 1);
    EXPECT_THAT(forecast.skipped[0].reason, HasSubstr("reduced Gaussian grid is not used: ask for"));
    EXPECT_TRUE(forecast.fields.empty());
}

}  // namespace
}  // namespace gloam::weather
