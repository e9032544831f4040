// Bilinear values of fields made by hand.
#include <gtest/gtest.h>

#include "weather/read.hpp"

namespace gloam::weather {
namespace {

/// 2 x 2 cells about 45 N 10 E.
Field square() {
    Field field;
    field.grid = RegularGrid{
        .first = {46.0, 10.0}, .lat_step_deg = -1.0, .lon_step_deg = 1.0, .rows = 2, .columns = 2};
    field.values = {0.0F, 1.0F, 0.5F, 0.5F};
    return field;
}

/// Rows at 60 N, 0 and 60 S (no rows at the poles), four columns round the Earth.
Field belt() {
    Field field;
    field.grid = RegularGrid{.first = {60.0, -180.0},
                             .lat_step_deg = -60.0,
                             .lon_step_deg = 90.0,
                             .rows = 3,
                             .columns = 4,
                             .wraps = true};
    field.values = {0.1F, 0.2F, 0.3F, 0.4F, 0, 0, 0, 0, 0.5F, 0.6F, 0.7F, 0.8F};
    return field;
}

TEST(ValueAt, IsTheCornerAtACornerAndTheMeanInTheMiddle) {
    EXPECT_DOUBLE_EQ(value_of(square(), {46.0, 11.0}), 1.0);
    EXPECT_DOUBLE_EQ(value_of(square(), {45.0, 10.0}), 0.5);
    EXPECT_DOUBLE_EQ(value_of(square(), {45.5, 10.5}), 0.5);
    EXPECT_DOUBLE_EQ(value_of(square(), {45.75, 10.5}), 0.5);
    EXPECT_DOUBLE_EQ(value_of(square(), {45.5, 11.0}), 0.75);
}

TEST(ValueAt, IsAbsentOutside) {
    for (const geo::LatLon outside :
         {geo::LatLon{46.1, 10.5}, {44.9, 10.5}, {45.5, 9.9}, {45.5, 11.1}, {45.5, -170.0}}) {
        EXPECT_FALSE(value_at(square(), outside));
    }
}

TEST(ValueAt, HoldsOnTheEdgeInSpiteOfDecimals) {
    Field field = square();
    std::get<RegularGrid>(field.grid).first = {0.3, 0.1 + 0.2};
    EXPECT_TRUE(value_at(field, {0.1 + 0.2, 0.3}));
    EXPECT_TRUE(value_at(field, {-0.7, 1.3}));
}

TEST(ValueAt, NeedsOnlyCellsThatCount) {
    Field field = square();
    field.present = {1, 0, 1, 1};
    EXPECT_DOUBLE_EQ(value_of(field, {45.5, 10.0}), 0.25);
    EXPECT_FALSE(value_at(field, {45.5, 10.01}));
}

TEST(ValueAt, WrapsRoundTheEarth) {
    EXPECT_NEAR(value_of(belt(), {60.0, 135.0}), 0.25, 1e-7);  // between columns at 90 E and 180
    EXPECT_NEAR(value_of(belt(), {60.0, -180.0}), 0.1, 1e-7);
    EXPECT_NEAR(value_of(belt(), {60.0, 179.999999}), 0.1, 1e-7);
    EXPECT_NEAR(value_of(belt(), {30.0, 0.0}), 0.15, 1e-7);
}

TEST(ValueAt, NearAPoleWithoutARowIsThatOfTheNearestRow) {
    EXPECT_NEAR(value_of(belt(), {90.0, 0.0}), 0.3, 1e-7);
    EXPECT_NEAR(value_of(belt(), {75.0, -90.0}), 0.2, 1e-7);
    EXPECT_NEAR(value_of(belt(), {-89.0, 90.0}), 0.8, 1e-7);
}

}  // namespace
}  // namespace gloam::weather
