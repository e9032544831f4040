// From humidity on levels to layers; all fields synthetic.
#include <gmock/gmock.h>

#include "air/standard_atmosphere.hpp"
#include "weather/humidity_cover.hpp"
#include "weather/made_fields.hpp"

namespace gloam::weather {
namespace {

using ::testing::Contains;
using ::testing::Each;
using ::testing::FloatEq;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr auto kHumidity = Quantity::kRelativeHumidity;

float cover(double humidity, double pressure_pa) {
    return static_cast<float>(
        cover_from_humidity(static_cast<double>(static_cast<float>(humidity)), pressure_pa));
}

TEST(LayersFromHumidity, HoldTheGreatestCoverOfTheirLevels) {
    const auto layered =
        layers_in({three_levels(kHumidity, 0.95, 0.85, 0.8), {on_level(kHumidity, 400e2, 0.9)}});
    EXPECT_EQ(layered.route, LayerRoute::kHumidityOnLevels);
    EXPECT_THAT(layer_of(layered, Band::kLow).cover, Each(FloatEq(cover(0.95, 850e2))));
    EXPECT_THAT(layer_of(layered, Band::kMiddle).cover, Each(FloatEq(cover(0.9, 400e2))));
    EXPECT_THAT(layer_of(layered, Band::kHigh).cover, Each(FloatEq(cover(0.8, 300e2))));
}

TEST(LayersFromHumidity, LieWhereCoverOnTheSameLevelsWould) {
    const auto humid = layers_in({three_levels(kHumidity, 0.95, 0.85, 0.8)});
    const auto given = layers_in({three_levels(Quantity::kCloudCover, 0.5, 0.5, 0.5)});
    for (const Band band : kBands) {
        EXPECT_EQ(layer_of(humid, band).base_m, layer_of(given, band).base_m);
        EXPECT_EQ(layer_of(humid, band).top_m, layer_of(given, band).top_m);
    }
    EXPECT_TRUE(humid.heights_from_standard_atmosphere);
    EXPECT_FALSE(humid.usual_heights);
}

TEST(LayersFromHumidity, DryAirIsClear) {
    const auto layered = layers_in({three_levels(kHumidity, 0.3, 0.3, 0.3)});
    for (const Band band : kBands) {
        EXPECT_THAT(layer_of(layered, band).cover, Each(0.0F));
    }
}

TEST(LayersFromHumidity, AMissingLevelIsNotedAndAMissingBandLeftOut) {
    const auto later = [](Field field) { return at_hour(9, std::move(field)); };
    const auto last = [](Field field) { return at_hour(12, std::move(field)); };
    const auto layered = layers_in({three_levels(kHumidity, 0.9, 0.9, 0.9),
                                    {on_level(kHumidity, 700e2, 0.9)},
                                    each(three_levels(kHumidity, 0.9, 0.9, 0.9), later),
                                    each({on_level(kHumidity, 850e2, 0.9)}, last)});
    EXPECT_EQ(layered.members[0].steps.size(), 2U);
    EXPECT_THAT(layered.notes,
                Contains(HasSubstr("2025-01-29T09:00:00Z lacks relative humidity at 700 hPa")));
    EXPECT_THAT(layered.notes,
                Contains(HasSubstr("it has no relative humidity on any level of the middle layer")));
}

TEST(LayersFromHumidity, AreAbsentWhereHumidityIs) {
    auto levels = three_levels(kHumidity, 0.95, 0.85, 0.8);
    levels[0] = masked(1, levels[0]);
    const auto layered = layers_in({levels});
    EXPECT_EQ(layered.members[0].steps[0].present, (std::vector<std::uint8_t>{1, 0, 1, 1}));
    EXPECT_EQ(layer_of(layered, Band::kLow).cover[1], 0.0F);
}

TEST(LayersFromHumidity, GoBeforeAveragesAndTheTotal) {
    const auto layered =
        layers_in({{total_cover(0.9)},
                   each(three_layers(0.9, 0.9, 0.9), [](Field f) { return over_hours(3, 6, std::move(f)); }),
                   three_levels(kHumidity, 0.3, 0.3, 0.3)});
    EXPECT_EQ(layered.route, LayerRoute::kHumidityOnLevels);
    EXPECT_THAT(layered.notes,
                Contains("not used beside humidity on levels: 3 fields of cover over a span of time"));
}

TEST(LayersFromHumidity, HumidityNearTheGroundIsNone) {
    auto near_ground = made(kHumidity, {.kind = LevelKind::kAboveGround, .height_m = 2.0}, 1.0);
    const auto layered = layers_in({{near_ground}, {total_cover(0.4)}});
    EXPECT_EQ(layered.route, LayerRoute::kTotalOnly);
    EXPECT_THAT(layered.notes, Not(Contains(HasSubstr("humidity"))));
}

TEST(LayersFromHumidity, HumidityIsNotUsedBesideCoverOnLevels) {
    const auto layered = layers_in(
        {three_levels(kHumidity, 1.0, 1.0, 1.0), three_levels(Quantity::kCloudCover, 0.1, 0.2, 0.3)});
    EXPECT_EQ(layered.route, LayerRoute::kCoverOnLevels);
    EXPECT_THAT(layered.notes,
                Contains("not used beside cloud cover on levels: 3 fields of humidity on levels"));
}

}  // namespace
}  // namespace gloam::weather
