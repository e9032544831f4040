// Headers of grids that contradict themselves: a little, which is said, or grossly, which is refused.
#include <gmock/gmock.h>

#include "weather/grib/grid.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::SyntheticGrid;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

struct Key {
    const char* name;
    double value;
};

std::optional<double> clear(double /*lat_deg*/, double /*lon_deg*/) {
    return 0.0;
}

/// The grid of a synthetic message with other numbers in its header, in the units of the file.
tl::expected<std::variant<GribGrid, NotUsed>, std::string> said(const SyntheticGrid& grid,
                                                                std::initializer_list<Key> changed,
                                                                int edition = 2) {
    const synthetic::Bytes bytes =
        message({.edition = edition, .number = edition == 1 ? 71 : 1, .grid = grid}, clear);
    GribHandle handle(bytes);
    for (const Key& key : changed) {
        EXPECT_TRUE(handle.set(key.name, key.value)) << key.name;
    }
    return grid_of(handle);
}

const GribGrid& read_grid(const tl::expected<std::variant<GribGrid, NotUsed>, std::string>& said) {
    return std::get<GribGrid>(said.value());
}

/// 220 x 320 points of a quarter degree from 40 N on the meridian of Greenwich, as of a part of Africa cut
/// out of a global field by NCEP in 2024: its header puts the last corner a cell too far, at 40 S 55 E.
const SyntheticGrid kAfrica{
    .north_deg = 40.0, .west_deg = 0.0, .step_deg = 0.25, .rows = 320, .columns = 220};
const std::initializer_list<Key> kCellTooFar{{"latitudeOfLastGridPoint", -40.0e6},
                                             {"longitudeOfLastGridPoint", 55.0e6}};

TEST(HeaderDoubts, ALastCornerOneCellTooFarIsSaidAndTheIncrementsHold) {
    const auto grid = read_grid(said(kAfrica, kCellTooFar));
    EXPECT_EQ(
        grid.doubt.value_or(""),
        "the header places the last corner at 40.0000 S 55.0000 E, its increments at 39.7500 S 54.7500 E: "
        "positions may be off by up to 0.25 deg");
    EXPECT_DOUBLE_EQ(std::get<RegularGrid>(grid.grid).lat_step_deg, -0.25);
    EXPECT_DOUBLE_EQ(std::get<RegularGrid>(grid.grid).lon_step_deg, 0.25);
    EXPECT_DOUBLE_EQ(std::get<RegularGrid>(grid.grid).first.lat_deg, 40.0);
}

TEST(HeaderDoubts, TheFirstCornerIsWhereTheValuesBegin) {
    SyntheticGrid grid = kAfrica;
    grid.northward = true;
    grid.westward = true;
    const auto read = read_grid(said(
        grid, {{"latitudeOfLastGridPoint", 40.25e6}, {"longitudeOfLastGridPoint", 359.75e6}}));  // too far
    EXPECT_TRUE(read.doubt);
    EXPECT_DOUBLE_EQ(std::get<RegularGrid>(read.grid).first.lat_deg, 40.0);
    EXPECT_NEAR(std::get<RegularGrid>(read.grid).first.lon_deg, 0.0, 1e-9);
}

TEST(HeaderDoubts, HalfACellIsSaidAndTheCornersHold) {
    const auto grid = read_grid(said(kAfrica, {{"longitudeOfLastGridPoint", 54.875e6}}));
    EXPECT_THAT(grid.doubt.value_or(""), HasSubstr("up to 0.125 deg"));
    EXPECT_DOUBLE_EQ(std::get<RegularGrid>(grid.grid).lon_step_deg, 54.875 / 219.0);
}

TEST(HeaderDoubts, MoreThanACellAndAHalfIsRefused) {
    const auto grid = said(kAfrica, {{"latitudeOfLastGridPoint", -40.2e6}});
    ASSERT_FALSE(grid);
    EXPECT_THAT(grid.error(), HasSubstr("contradicts itself"));
}

TEST(HeaderDoubts, RowsBeyondAPoleAreRefused) {
    const SyntheticGrid globe{
        .north_deg = 90.0, .west_deg = 0.0, .step_deg = 2.5, .rows = 74, .columns = 144};
    EXPECT_FALSE(said(globe, {{"latitudeOfLastGridPoint", -90.0e6}}));
}

TEST(HeaderDoubts, ARoundedIncrementIsNone) {  // a third of a degree as 0.333333, and as 0.333 in edition 1
    const SyntheticGrid thirds{
        .north_deg = 60.0, .west_deg = 0.0, .step_deg = 1.0 / 3.0, .rows = 31, .columns = 1080};
    for (const int edition : {1, 2}) {
        const auto grid = read_grid(said(thirds, {}, edition));
        EXPECT_FALSE(grid.doubt) << *grid.doubt;
        EXPECT_TRUE(std::get<RegularGrid>(grid.grid).wraps);
        EXPECT_DOUBLE_EQ(std::get<RegularGrid>(grid.grid).lon_step_deg, 1.0 / 3.0);
    }
}

TEST(HeaderDoubts, AnIncrementCutToThousandthsInEdition2LeavesTheCorners) {
    const SyntheticGrid thirds{
        .north_deg = 60.0, .west_deg = 0.0, .step_deg = 1.0 / 3.0, .rows = 31, .columns = 1080};
    const auto grid = read_grid(said(thirds, {{"iDirectionIncrement", 333000.0}}));
    EXPECT_THAT(grid.doubt.value_or(""), HasSubstr("up to 0.3597 deg"));
    EXPECT_TRUE(std::get<RegularGrid>(grid.grid).wraps);
}

/// All rows of the Gaussian grid of T62.
const SyntheticGrid kT62{
    .north_deg = 90.0, .west_deg = 0.0, .step_deg = 1.875, .gaussian_n = 47, .rows = 94, .columns = 192};

TEST(HeaderDoubts, AGaussianGridWithItsEdgesAtThePolesIsSaid) {
    const auto grid =
        read_grid(said(kT62, {{"latitudeOfFirstGridPoint", 90.0e6}, {"latitudeOfLastGridPoint", -90.0e6}}));
    EXPECT_THAT(grid.doubt.value_or(""), HasSubstr("from 90 to -90 deg north"));
    EXPECT_THAT(grid.doubt.value_or(""), HasSubstr("from 88.54 to -88.54"));
    EXPECT_NEAR(std::get<GaussianGrid>(grid.grid).lats_deg.front(), 88.542, 1e-3);
}

TEST(HeaderDoubts, AGaussianGridElsewhereIsRefused) {
    EXPECT_FALSE(said(kT62, {{"latitudeOfLastGridPoint", -80.0e6}}));
    EXPECT_FALSE(said(kT62, {{"latitudeOfFirstGridPoint", -88.542e6}}));
    EXPECT_FALSE(said(kT62, {{"longitudeOfLastGridPoint", 340.0e6}}));
}

TEST(HeaderDoubts, ASoundHeaderRaisesNone) {
    EXPECT_FALSE(read_grid(said(kAfrica, {})).doubt);
    EXPECT_FALSE(read_grid(said(kT62, {})).doubt);
    EXPECT_FALSE(read_grid(said(kT62, {}, 1)).doubt);
}

TEST(HeaderDoubts, AreNotesOfTheForecast) {
    synthetic::Bytes bytes = message({.grid = kAfrica}, clear);
    const std::size_t last_lon = 16 + 21 + 59;  // octets 60-63 of section 3, after sections 0 and 1
    for (std::size_t i = 0; i < 4; ++i) {       // 55 degrees instead of 54.75
        bytes.at(last_lon + i) = std::byte{static_cast<unsigned char>(55'000'000U >> (8U * (3U - i)))};
    }
    EXPECT_THAT(read(bytes).notes, ElementsAre(HasSubstr("its increments at 39.7500 S 54.7500 E")));
}

}  // namespace
}  // namespace gloam::weather
