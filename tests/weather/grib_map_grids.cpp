// Grids of synthetic messages other than those regular in latitude and longitude, in every scanning order;
// and headers of theirs that make no sense.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cmath>
#include <numbers>
#include <random>

#include "weather/grib/grid.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::SyntheticGrid;
using synthetic::SyntheticMap;
using synthetic::SyntheticPlace;
using ::testing::HasSubstr;

constexpr double kRadians = std::numbers::pi / 180.0;

/// Share of cover: smooth everywhere on the Earth, poles and the date line included, and different at every
/// place of a region.
double smooth(double lat_deg, double lon_deg) {
    const double x = std::cos(lat_deg * kRadians) * std::cos(lon_deg * kRadians);
    const double y = std::cos(lat_deg * kRadians) * std::sin(lon_deg * kRadians);
    return 0.5 + 0.25 * x + 0.15 * y + 0.05 * std::sin(lat_deg * kRadians);
}
std::optional<double> smooth_percent(double lat_deg, double lon_deg) {
    return 100.0 * smooth(lat_deg, lon_deg);
}

SyntheticGrid lambert_grid() {
    const SyntheticMap map{.lower_left = {40.0, -8.0}, .meridian_deg = 5.0, .parallel_1_deg = 40.0};
    return {.map = map, .rows = 30, .columns = 41};
}

SyntheticGrid pacific_lambert_grid() {  // over the date line
    const SyntheticMap map{
        .lower_left = {30.0, 165.0}, .meridian_deg = 175.0, .parallel_1_deg = 30.0, .parallel_2_deg = 45.0};
    return {.map = map, .rows = 30, .columns = 70};
}

SyntheticGrid northern_polar_grid() {  // the pole is in it
    const SyntheticMap map{
        .polar = true, .lower_left = {52.0, 315.0}, .step_m = 60.0e3, .parallel_1_deg = 60.0};
    return {.map = map, .rows = 101, .columns = 101};
}

SyntheticGrid southern_polar_grid() {  // so it is here
    const SyntheticMap map{.polar = true,
                           .lower_left = {-66.0, 229.0},
                           .step_m = 50.0e3,
                           .parallel_1_deg = -71.0,
                           .about_south = true};
    return {.map = map, .rows = 71, .columns = 81};
}

SyntheticGrid gaussian_grid() {
    return {
        .north_deg = 75.0, .west_deg = 150.0, .step_deg = 1.875, .gaussian_n = 47, .rows = 30, .columns = 40};
}

struct Named {
    const char* name;
    SyntheticGrid (*grid)();
};

class MapScanning : public ::testing::TestWithParam<std::tuple<Named, int>> {};

/// A place on the straight way between two, at a share of it.
geo::LatLon between(SyntheticPlace from, SyntheticPlace to, double share) {
    const auto mixed = [&](auto part) { return (1.0 - share) * part(from) + share * part(to); };
    const double x = mixed(
        [](SyntheticPlace at) { return std::cos(at.lat_deg * kRadians) * std::cos(at.lon_deg * kRadians); });
    const double y = mixed(
        [](SyntheticPlace at) { return std::cos(at.lat_deg * kRadians) * std::sin(at.lon_deg * kRadians); });
    const double z = mixed([](SyntheticPlace at) { return std::sin(at.lat_deg * kRadians); });
    return geo::make_lat_lon(std::atan2(z, std::hypot(x, y)) / kRadians, std::atan2(y, x) / kRadians).value();
}

TEST_P(MapScanning, IsUndone) {
    const auto& [kind, order] = GetParam();
    const unsigned flags = static_cast<unsigned>(order);
    SyntheticGrid grid = kind.grid();
    grid.westward = (flags & 8U) != 0;
    grid.northward = (flags & 4U) != 0;
    grid.by_column = (flags & 2U) != 0;
    grid.back_and_forth = (flags & 1U) != 0;
    const Forecast forecast = read(message({.grid = grid}, smooth_percent));
    const Field& field = forecast.fields.at(0);
    const auto places = synthetic::places_of(grid);
    ASSERT_EQ(field.values.size(), places.size());
    for (std::size_t cell = 0; cell < places.size(); ++cell) {
        ASSERT_NEAR(static_cast<double>(field.values[cell]),
                    smooth(places[cell].lat_deg, places[cell].lon_deg), 1e-5)
            << cell;
    }
    std::mt19937 draw(1);
    for (int i = 0; i < 50; ++i) {
        const auto row = draw() % static_cast<std::size_t>(grid.rows - 1);
        const auto column = draw() % static_cast<std::size_t>(grid.columns - 1);
        const std::size_t cell = row * static_cast<std::size_t>(grid.columns) + column;
        const std::size_t across = cell + static_cast<std::size_t>(grid.columns) + 1;
        const geo::LatLon place =
            between(places[cell], places[across], 0.01 * static_cast<double>(draw() % 101));
        EXPECT_NEAR(value_of(field, place), smooth(place.lat_deg, place.lon_deg), 1e-4)
            << geo::to_text(place);
    }
}

INSTANTIATE_TEST_SUITE_P(EveryOrder, MapScanning,
                         ::testing::Combine(::testing::Values(Named{"Lambert", lambert_grid},
                                                              Named{"PacificLambert", pacific_lambert_grid},
                                                              Named{"NorthernPolar", northern_polar_grid},
                                                              Named{"SouthernPolar", southern_polar_grid},
                                                              Named{"Gaussian", gaussian_grid}),
                                            ::testing::Range(0, 16)),
                         [](const auto& param) {
                             return fmt::format("{}{}", std::get<0>(param.param).name,
                                                std::get<1>(param.param));
                         });

/// What the reader of grids says of a synthetic message.
tl::expected<std::variant<GribGrid, NotUsed>, std::string> grid_said(const SyntheticGrid& grid,
                                                                     const char* key, double value) {
    const synthetic::Bytes bytes = message({.grid = grid}, smooth_percent);
    GribHandle handle(bytes);
    EXPECT_TRUE(handle.set(key, value)) << key;
    return grid_of(handle);
}

std::string trouble(const SyntheticGrid& grid, const char* key, double value) {
    const auto said = grid_said(grid, key, value);
    return said ? "was read" : said.error();
}

TEST(SyntheticMaps, OfNoLengthAreRefused) {
    EXPECT_THAT(trouble(lambert_grid(), "Dx", 0.0), HasSubstr("no lengths"));
    EXPECT_THAT(trouble(northern_polar_grid(), "Dy", 0.0), HasSubstr("no lengths"));
}

TEST(SyntheticMaps, ThatBeginNowhereAreRefused) {
    EXPECT_THAT(trouble(lambert_grid(), "latitudeOfFirstGridPoint", 91.0e6), HasSubstr("no place on Earth"));
    EXPECT_THAT(trouble(southern_polar_grid(), "longitudeOfFirstGridPoint", 3999.0e6),
                HasSubstr("no place on Earth"));
}

/// What the reader says of a map on another shape of the Earth (GRIB code table 3.2).
std::string trouble_on_earth(const SyntheticGrid& grid, unsigned shape) {
    synthetic::Bytes bytes = message({.grid = grid}, smooth_percent);
    bytes.at(16 + 21 + 14) = static_cast<std::byte>(shape);  // sections 0 and 1, then octet 15 of section 3
    const auto said = grid_of(GribHandle(bytes));
    return said ? "was read" : said.error();
}

TEST(SyntheticMaps, OnAnEarthWithoutASizeAreRefused) {  // 1, 3 and 7 need numbers, 200 is no shape
    for (const unsigned shape : {1U, 3U, 7U, 200U}) {
        EXPECT_THAT(trouble_on_earth(lambert_grid(), shape), HasSubstr("does not describe")) << shape;
        EXPECT_THAT(trouble_on_earth(northern_polar_grid(), shape), HasSubstr("does not describe")) << shape;
    }
}

TEST(SyntheticMaps, AreReadOnEveryEarthOfAKnownSize) {
    for (const unsigned shape : {0U, 2U, 4U, 5U, 6U, 8U, 9U}) {
        EXPECT_EQ(trouble_on_earth(lambert_grid(), shape), "was read") << shape;
        EXPECT_EQ(trouble_on_earth(northern_polar_grid(), shape), "was read") << shape;
    }
}

TEST(SyntheticMaps, WithImpossibleParallelsAreRefused) {
    EXPECT_THAT(trouble(lambert_grid(), "Latin1", 95.0e6), HasSubstr("there is no such map"));
    EXPECT_THAT(trouble(northern_polar_grid(), "LaD", 95.0e6), HasSubstr("there is no such map"));
    EXPECT_THAT(trouble(northern_polar_grid(), "orientationOfTheGrid", 2000.0e6), HasSubstr("meridian"));
}

TEST(SyntheticMaps, LargerThanTheirMapAreRefused) {
    SyntheticGrid upward = lambert_grid();
    upward.northward = true;
    EXPECT_THAT(trouble(upward, "Dy", 300.0e6), HasSubstr("does not fit"));        // beyond the cut
    EXPECT_THAT(trouble(lambert_grid(), "Dx", 4.0e9), HasSubstr("does not fit"));  // round the Earth
    EXPECT_THAT(trouble(northern_polar_grid(), "latitudeOfFirstGridPoint", -90.0e6),
                HasSubstr("does not fit"));
}

TEST(SyntheticGaussianGrids, OfImpossibleNAreRefused) {
    for (const double n : {0.0, 3.0, 4001.0, 4294967294.0}) {
        EXPECT_THAT(trouble(gaussian_grid(), "N", n), HasSubstr("Gaussian grid")) << n;
    }
}

}  // namespace
}  // namespace gloam::weather
