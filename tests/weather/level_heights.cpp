// Slabs and their heights.
#include "weather/level_heights.hpp"

#include <gmock/gmock.h>

#include <cmath>

#include "air/standard_atmosphere.hpp"

namespace gloam::weather {
namespace {

using ::testing::DoubleNear;
using ::testing::ElementsAre;

Field height_field(double pressure_pa, double height_m) {
    Field field;
    field.quantity = Quantity::kGeopotentialHeight;
    field.level = {LevelKind::kPressure, pressure_pa};
    field.values = {static_cast<float>(height_m)};
    return field;
}

TEST(SlabLimits, LieHalfWayBetweenLevels) {
    const std::vector<double> levels{850e2, 700e2, 500e2, 400e2};
    EXPECT_THAT(slab_limits_pa(levels), ElementsAre(DoubleNear(93162.5, 0.1), 775e2, 600e2, 450e2, 350e2));
}

TEST(SlabLimits, ALevelBelowSeaLevelPressureBoundsItself) {
    EXPECT_DOUBLE_EQ(slab_limits_pa(std::vector{1050e2, 1000e2}).front(), 1050e2);
}

TEST(SlabLimits, TheUppermostSlabEndsBelowHalfItsPressure) {
    EXPECT_DOUBLE_EQ(slab_limits_pa(std::vector{500e2, 100e2}).back(), 50e2);
    EXPECT_DOUBLE_EQ(slab_limits_pa(std::vector{100e2, 50e2}).back(), 25e2);
    EXPECT_DOUBLE_EQ(slab_limits_pa(std::vector{2e2, 1e2}).back(), 100.0);
}

TEST(LevelHeights, AreThoseOfTheStandardAtmosphereWithoutOthers) {
    const LevelHeights heights(std::vector{500e2}, {});
    EXPECT_DOUBLE_EQ(heights.height_m(0, 0), air::pressure_altitude_m(500e2));
    EXPECT_NEAR(heights.height_m(0, 0), 5574.0 + 4.9, 2.0);  // standard atmosphere, tables: 5574 gpm
}

TEST(LevelHeights, FollowTheGeopotentialHeights) {
    const Field low = height_field(850e2, 1300.0);
    const Field high = height_field(300e2, 8800.0);
    const std::vector<const Field*> fields{&low, &high};
    const LevelHeights heights(std::vector{850e2, 300e2, 1000e2, 200e2, 505e2}, fields);
    const auto deviation = [&](std::size_t surface, double pressure_pa) {
        return heights.height_m(surface, 0) - air::pressure_altitude_m(pressure_pa);
    };
    EXPECT_NEAR(heights.height_m(0, 0), 1300.3, 0.1);  // geometric, a little more than geopotential
    EXPECT_NEAR(heights.height_m(1, 0), 8812.2, 0.1);
    EXPECT_NEAR(deviation(2, 1000e2), deviation(0, 850e2), 0.01);  // constant below the lowest
    EXPECT_NEAR(deviation(3, 200e2), deviation(1, 300e2), 0.01);   // and above the highest
    const double share = std::log(850.0 / 505.0) / std::log(850.0 / 300.0);
    EXPECT_NEAR(deviation(4, 505e2), (1 - share) * deviation(0, 850e2) + share * deviation(1, 300e2), 0.01);
}

TEST(LevelHeights, AMaskedHeightIsTheStandardOne) {
    Field masked = height_field(500e2, 0.0);
    masked.present = {0};
    const std::vector<const Field*> fields{&masked};
    EXPECT_DOUBLE_EQ(LevelHeights(std::vector{500e2}, fields).height_m(0, 0),
                     air::pressure_altitude_m(500e2));
}

}  // namespace
}  // namespace gloam::weather
