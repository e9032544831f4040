// Windows of grids: what is read through one is what the whole grid says.
#include <gmock/gmock.h>

#include <cmath>
#include <random>

#include "base/check.hpp"
#include "geo/geodesic.hpp"
#include "weather/field.hpp"
#include "weather/grid_window.hpp"
#include "weather/projection.hpp"

namespace gloam::weather {
namespace {

constexpr double kRadius_m = 900.0e3;
const EarthShape kSphere{6371229.0, 0.0};

/// Values that no rule makes: no cell can stand in for another.
Field filled(Grid grid) {
    Field field;
    field.grid = std::move(grid);
    std::mt19937 draw(7);
    for (std::size_t cell = 0; cell < cells_of(field.grid); ++cell) {
        field.values.push_back(static_cast<float>(draw() % 10000U));
    }
    return field;
}

Field through(const Field& whole, const GridWindow& window) {
    Field field;
    field.grid = cropped(whole.grid, window);
    for (std::size_t cell = 0; cell < cells_of(field.grid); ++cell) {
        field.values.push_back(whole.values[cell_of_whole(whole.grid, window, cell)]);
    }
    return field;
}

Grid globe() {  // from Greenwich
    return RegularGrid{.first = {90.0, 0.0},
                       .lat_step_deg = -0.5,
                       .lon_step_deg = 0.5,
                       .rows = 361,
                       .columns = 720,
                       .wraps = true};
}
Grid globe_from_180() {
    return RegularGrid{.first = {89.75, -180.0},  // no rows at the poles
                       .lat_step_deg = -0.5,
                       .lon_step_deg = 0.5,
                       .rows = 360,
                       .columns = 720,
                       .wraps = true};
}
Grid region() {
    return RegularGrid{
        .first = {72.0, -25.0}, .lat_step_deg = -0.25, .lon_step_deg = 0.25, .rows = 160, .columns = 260};
}
Grid belt_with_a_gap() {  // from 170 W eastwards to 170 E: the date line lies in the gap
    return RegularGrid{
        .first = {80.0, -170.0}, .lat_step_deg = -1.0, .lon_step_deg = 1.0, .rows = 161, .columns = 341};
}
Grid gaussian() {
    GaussianGrid grid{
        .lats_deg = {}, .first_lon_deg = 0.0, .lon_step_deg = 1.875, .columns = 192, .wraps = true};
    for (int row = 0; row < 94; ++row) {  // nearly Gaussian
        grid.lats_deg.push_back(88.542 - 1.9039 * row);
    }
    return grid;
}
Grid lambert_map() {
    const auto map = lambert({kSphere, 30.0, 60.0, 10.0}).value();
    const PlanePoint centre = map->plane_point({50.0, 10.0});
    return ProjectedGrid{.projection = map,
                         .first = {centre.x_m - 2.0e6, centre.y_m + 2.0e6},
                         .step_x_m = 20.0e3,
                         .step_y_m = 20.0e3,
                         .rows = 201,
                         .columns = 201};
}
Grid wide_lambert_map() {  // the whole north: the pole and the cut are in it
    const auto map = lambert({kSphere, 50.0, 50.0, 10.0}).value();
    const PlanePoint pole = map->plane_point({90.0, 0.0});
    return ProjectedGrid{.projection = map,
                         .first = {pole.x_m - 6.0e6, pole.y_m + 6.0e6},
                         .step_x_m = 50.0e3,
                         .step_y_m = 50.0e3,
                         .rows = 241,
                         .columns = 241};
}
Grid polar_map() {
    return ProjectedGrid{.projection = polar_stereographic({kSphere, false, 60.0, -20.0}).value(),
                         .first = {-4.0e6, 4.0e6},
                         .step_x_m = 40.0e3,
                         .step_y_m = 40.0e3,
                         .rows = 201,
                         .columns = 201};
}
Grid column() {
    return PointGrid{{50.0, 10.0}};
}

struct Case {
    const char* name;
    Grid (*grid)();
    geo::LatLon centre;
};

class Windows : public ::testing::TestWithParam<Case> {};

TEST_P(Windows, GiveTheValuesOfTheWholeGrid) {
    const Field whole = filled(GetParam().grid());
    const auto window = window_round(whole.grid, GetParam().centre, kRadius_m);
    ASSERT_TRUE(window);
    const Field part = through(whole, *window);
    std::mt19937 draw(3);
    int inside = 0;
    for (int i = 0; i < 200; ++i) {
        const double share = std::sqrt(0.001 * static_cast<double>(draw() % 1001U));  // even over the circle
        const Azimuth heading = Azimuth::degrees(0.1 * static_cast<double>(draw() % 3600U));
        const geo::LatLon point = geo::travel(GetParam().centre, heading, share * kRadius_m).at;
        const auto expected = value_at(whole, point);
        const auto value = value_at(part, point);
        ASSERT_EQ(value.has_value(), expected.has_value()) << geo::to_text(point);
        if (expected) {
            ++inside;
            EXPECT_NEAR(*value, *expected, 1e-4) << geo::to_text(point);
        }
    }
    EXPECT_GT(inside, 50);
}

INSTANTIATE_TEST_SUITE_P(
    EveryKind, Windows,
    ::testing::Values(
        Case{"GlobeAtGreenwich", globe, {51.5, -0.1}}, Case{"GlobeAt180", globe, {-17.0, 179.5}},
        Case{"GlobeAtThePole", globe, {89.0, 30.0}}, Case{"GlobeNearThePole", globe, {79.0, 15.0}},
        Case{"GlobeAtTheSouthPole", globe, {-90.0, 0.0}},
        Case{"From180AtGreenwich", globe_from_180, {5.0, 0.0}},
        Case{"From180At180", globe_from_180, {60.0, -179.9}},
        Case{"From180ByTheCap", globe_from_180, {81.7, 100.0}}, Case{"Region", region, {47.0, 8.0}},
        Case{"RegionAtItsCorner", region, {71.9, -24.9}},
        Case{"GapFromTheWest", belt_with_a_gap, {10.0, 168.0}},
        Case{"GapFromTheEast", belt_with_a_gap, {75.0, -168.0}},
        Case{"GaussianAtGreenwich", gaussian, {45.0, 0.5}},
        Case{"GaussianAt180", gaussian, {-30.0, 180.0 - 1e-3}},
        Case{"GaussianByTheCap", gaussian, {81.0, 10.0}}, Case{"GaussianAtThePole", gaussian, {-88.0, -60.0}},
        Case{"Lambert", lambert_map, {48.0, 2.0}}, Case{"LambertAtItsEdge", lambert_map, {34.0, 8.0}},
        Case{"LambertOverTheCut", wide_lambert_map, {60.0, -170.0}},
        Case{"LambertWithThePole", wide_lambert_map, {84.0, 0.0}},
        Case{"PolarAtGreenwich", polar_map, {65.0, 0.0}}, Case{"PolarAt180", polar_map, {65.0, 179.9}},
        Case{"PolarAtThePole", polar_map, {88.0, 45.0}}),
    [](const auto& param) { return std::string(param.param.name); });

std::size_t share_kept_percent(const Grid& grid, geo::LatLon centre) {
    const auto window = window_round(grid, centre, kRadius_m);
    return window ? 100 * cells_of(cropped(grid, *window)) / cells_of(grid) : 0;
}

TEST(WindowSize, IsThatOfTheCircle) {  // 16.3 degrees of 180 by 26 of 360 at 51.5 north
    EXPECT_EQ(share_kept_percent(globe(), {51.5, -0.1}), 0U);
    EXPECT_LT(cells_of(cropped(globe(), *window_round(globe(), {51.5, -0.1}, kRadius_m))), 35U * 56U);
    EXPECT_LT(share_kept_percent(lambert_map(), {48.0, 2.0}), 30U);
    EXPECT_LT(share_kept_percent(polar_map(), {65.0, 0.0}), 10U);
}

TEST(WindowSize, IsEveryColumnWhereTheCircleHoldsAPole) {
    const auto window = window_round(globe(), {-85.0, 30.0}, kRadius_m);
    ASSERT_TRUE(window);
    EXPECT_EQ(window->columns, 720U);
    EXPECT_EQ(window->first_column, 0U);
    EXPECT_LT(window->rows, 40U);
    EXPECT_TRUE(std::get<RegularGrid>(cropped(globe(), *window)).wraps);
}

TEST(WindowSize, OfMoreThanTheEarthIsTheWholeGrid) {
    for (const auto& grid : {globe(), gaussian(), lambert_map(), polar_map(), region()}) {
        const auto window = window_round(grid, {50.0, 10.0}, 30.0e6);
        ASSERT_TRUE(window);
        EXPECT_TRUE(same_grid(cropped(grid, *window), grid)) << to_text(grid);
        EXPECT_EQ(cell_of_whole(grid, *window, 77), 77U);
    }
}

TEST(WindowSize, OfNothingIsTheFourCellsRoundThePlace) {
    const auto window = window_round(globe(), {51.3, -0.1}, 0.0);
    ASSERT_TRUE(window);
    EXPECT_EQ(window->rows, 2U);
    EXPECT_EQ(window->columns, 2U);
    EXPECT_EQ(cell_of_whole(globe(), *window, 0), 77U * 720U + 719U);
    EXPECT_EQ(cell_of_whole(globe(), *window, 3), 78U * 720U);
}

TEST(WindowSize, OfAColumnIsTheColumn) {
    const auto window = window_round(column(), {50.1, 10.0}, kRadius_m);
    ASSERT_TRUE(window);
    EXPECT_TRUE(same_grid(cropped(column(), *window), column()));
    EXPECT_EQ(cell_of_whole(column(), *window, 0), 0U);
}

TEST(WindowRound, IsAbsentForAPlaceOutside) {
    EXPECT_FALSE(window_round(region(), {20.0, 8.0}, kRadius_m));
    EXPECT_FALSE(window_round(belt_with_a_gap(), {10.0, 179.0}, kRadius_m));
    EXPECT_FALSE(window_round(lambert_map(), {-50.0, -170.0}, kRadius_m));
    EXPECT_FALSE(window_round(column(), {52.0, 10.0}, kRadius_m));
}

TEST(WindowRound, ARadiusBelowZeroBreaksThePromise) {
    EXPECT_THROW(window_round(globe(), {50.0, 10.0}, -1.0), InternalError);
    EXPECT_THROW(window_round(globe(), {50.0, 10.0}, std::nan("")), InternalError);
}

}  // namespace
}  // namespace gloam::weather
