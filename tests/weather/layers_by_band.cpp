// From low, middle and high cover to layers; all fields synthetic.
#include <gmock/gmock.h>

#include <limits>

#include "air/standard_atmosphere.hpp"
#include "weather/column.hpp"
#include "weather/made_fields.hpp"

namespace gloam::weather {
namespace {

using ::testing::Contains;
using ::testing::Each;
using ::testing::FloatEq;
using ::testing::FloatNear;
using ::testing::HasSubstr;

constexpr geo::LatLon kInside{59.5, 0.5};

Fields bounds(Band band, double base_pa, double top_pa) {
    return {base_of(band, base_pa), top_of(band, top_pa)};
}

ColumnLayer column(const LayeredForecast& layered, Band band) {
    return column_at(layered, 0, kInside, hour(6)).value()[index_of(band)];
}

TEST(LayersByBand, HoldTheCoverThatIsGiven) {
    const auto layered = layers_in({three_layers(0.1, 0.2, 0.3)});
    EXPECT_EQ(layered.route, LayerRoute::kCoverByLayer);
    EXPECT_THAT(layer_of(layered, Band::kLow).cover, Each(FloatEq(0.1F)));
    EXPECT_THAT(layer_of(layered, Band::kMiddle).cover, Each(FloatEq(0.2F)));
    EXPECT_THAT(layer_of(layered, Band::kHigh).cover, Each(FloatEq(0.3F)));
}

TEST(LayersByBand, LieAtTheirUsualHeightsWhereNoneAreGiven) {
    const auto layered = layers_in({three_layers(0.1, 0.2, 0.3)});
    EXPECT_TRUE(layered.usual_heights);
    EXPECT_FALSE(layered.heights_from_standard_atmosphere);
    EXPECT_THAT(layered.notes, Contains(HasSubstr("usual height")));
    for (const Band band : kBands) {
        EXPECT_DOUBLE_EQ(column(layered, band).base_m, kUsualHeights[index_of(band)].base_m);
        EXPECT_DOUBLE_EQ(column(layered, band).top_m, kUsualHeights[index_of(band)].top_m);
        EXPECT_NEAR(column(layered, band).base_spread_m, kUnknownSpread_m + kOffStandard_m[index_of(band)],
                    1e-3);
    }
}

TEST(LayersByBand, LieAtThePressuresOfTheirBaseAndTop) {
    const auto layered = layers_in({three_layers(0.1, 0.2, 0.3), bounds(Band::kLow, 900e2, 850e2),
                                    bounds(Band::kMiddle, 600e2, 550e2), bounds(Band::kHigh, 350e2, 250e2)});
    EXPECT_FALSE(layered.usual_heights);
    EXPECT_TRUE(layered.heights_from_standard_atmosphere);
    EXPECT_NEAR(column(layered, Band::kLow).base_m, air::pressure_altitude_m(900e2), 0.1);
    EXPECT_NEAR(column(layered, Band::kMiddle).top_m, air::pressure_altitude_m(550e2), 0.1);
    EXPECT_NEAR(column(layered, Band::kHigh).base_m, air::pressure_altitude_m(350e2), 0.1);
    EXPECT_NEAR(column(layered, Band::kHigh).base_spread_m, 150.0 + kOffStandard_m[index_of(Band::kHigh)],
                1e-9);
}

TEST(LayersByBand, TurnPressureIntoHeightByGeopotentialHeights) {
    const Fields heights{on_level(Quantity::kGeopotentialHeight, 850e2, 1557.0),
                         on_level(Quantity::kGeopotentialHeight, 300e2, 9264.0)};  // standard: 1457, 9164
    const auto layered =
        layers_in({three_layers(0.1, 0.2, 0.3), bounds(Band::kLow, 900e2, 850e2),
                   bounds(Band::kMiddle, 600e2, 550e2), bounds(Band::kHigh, 350e2, 250e2), heights});
    EXPECT_FALSE(layered.heights_from_standard_atmosphere);
    EXPECT_NEAR(column(layered, Band::kMiddle).base_m, air::pressure_altitude_m(600e2) + 100.0, 2.0);
    EXPECT_NEAR(column(layered, Band::kMiddle).base_spread_m, 150.0, 1e-9);
}

TEST(LayersByBand, OfWhichTheBaseIsMaskedAreAtTheirUsualHeightThere) {
    auto low = bounds(Band::kLow, 900e2, 850e2);
    low[0] = masked(2, low[0]);
    const auto layered = layers_in({three_layers(0.5, 0.2, 0.3), low});
    const auto& base_m = layer_of(layered, Band::kLow).base_m;
    EXPECT_FLOAT_EQ(base_m[2], static_cast<float>(kUsualHeights[index_of(Band::kLow)].base_m));
    EXPECT_NEAR(static_cast<double>(base_m[1]), air::pressure_altitude_m(900e2), 0.1);
}

class Impossible : public ::testing::TestWithParam<std::pair<double, double>> {};

TEST_P(Impossible, BoundsAreNotTaken) {
    const auto& [base_pa, top_pa] = GetParam();
    const auto layered = layers_in({three_layers(0.5, 0.2, 0.3), bounds(Band::kMiddle, base_pa, top_pa)});
    EXPECT_THAT(layer_of(layered, Band::kMiddle).base_m, Each(FloatNear(4.0e3F, 0.1F)));
    EXPECT_THAT(layer_of(layered, Band::kMiddle).top_m, Each(FloatNear(4.6e3F, 0.1F)));
}

INSTANTIATE_TEST_SUITE_P(LayersByBand, Impossible,
                         ::testing::Values(std::pair(500e2, 600e2), std::pair(500e2, 500e2),
                                           std::pair(0.0, 0.0), std::pair(500e2, 0.0),
                                           std::pair(9.9e8, 500e2),
                                           std::pair(std::numeric_limits<double>::quiet_NaN(), 500e2),
                                           std::pair(500e2, std::numeric_limits<double>::quiet_NaN())));

TEST(LayersByBand, TakeNoBoundsOfAnotherHour) {
    const auto layered =
        layers_in({three_layers(0.5, 0.2, 0.3), each(bounds(Band::kLow, 900e2, 850e2), [](Field field) {
                       return over_hours(0, 6, std::move(field));
                   })});
    EXPECT_THAT(layer_of(layered, Band::kLow).base_m, Each(FloatNear(1.0e3F, 0.1F)));
}

TEST(LayersByBand, AreAbsentWhereALayerIsMasked) {
    auto layers = three_layers(0.1, 0.2, 0.3);
    layers[1] = masked(2, layers[1]);
    const auto layered = layers_in({layers});
    EXPECT_EQ(layered.members[0].steps[0].present, (std::vector<std::uint8_t>{1, 1, 0, 1}));
    EXPECT_THAT(layered.notes, Contains(HasSubstr("missing in 1 of 4 columns")));
}

TEST(LayersByBand, AStepWithoutOneOfThemIsLeftOutAndNoted) {
    const Fields later{at_hour(9, cover_of(Band::kLow, 0.5)), at_hour(9, cover_of(Band::kHigh, 0.5))};
    const auto layered = layers_in({three_layers(0.1, 0.2, 0.3), later});
    EXPECT_EQ(layered.members[0].steps.size(), 1U);
    EXPECT_THAT(layered.notes, Contains(HasSubstr("2025-01-29T09:00:00Z is left out: it has no cloud cover "
                                                  "of the middle layer")));
}

TEST(LayersByBand, AbsentCloudIsNotClearSky) {
    const auto refused = layers_of(together({{cover_of(Band::kLow, 0.5), cover_of(Band::kMiddle, 0.5)}}));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kIncomplete);
    EXPECT_THAT(refused.error().message, HasSubstr("high layer"));
}

TEST(LayersByBand, AreNotUsedBesideLevels) {
    const auto layered =
        layers_in({three_layers(0.9, 0.9, 0.9), three_levels(Quantity::kCloudCover, 0.1, 0.2, 0.3)});
    EXPECT_EQ(layered.route, LayerRoute::kCoverOnLevels);
    EXPECT_THAT(layer_of(layered, Band::kLow).cover, Each(FloatEq(0.1F)));
    EXPECT_THAT(layered.notes,
                Contains("not used beside cloud cover on levels: 3 fields of low, middle and high cloud"));
}

TEST(LayersByBand, AreTakenWhereLevelsLackABand) {
    const auto layered = layers_in(
        {three_layers(0.1, 0.2, 0.3),
         {on_level(Quantity::kCloudCover, 850e2, 0.9), on_level(Quantity::kCloudCover, 500e2, 0.9)}});
    EXPECT_EQ(layered.route, LayerRoute::kCoverByLayer);
    EXPECT_THAT(layered.notes, Contains(HasSubstr("2 fields of cover on levels")));
}

TEST(LayersByBand, GoBeforeHumidityAveragesAndTheTotal) {
    const auto layered =
        layers_in({each(three_layers(0.9, 0.9, 0.9), [](Field f) { return over_hours(3, 6, std::move(f)); }),
                   {total_cover(0.9)},
                   three_levels(Quantity::kRelativeHumidity, 1.0, 1.0, 1.0),
                   three_layers(0.1, 0.2, 0.3)});
    EXPECT_EQ(layered.route, LayerRoute::kCoverByLayer);
    EXPECT_THAT(layer_of(layered, Band::kHigh).cover, Each(FloatEq(0.3F)));
    EXPECT_THAT(layered.notes, Contains(HasSubstr("3 fields of cover over a span of time")));
    EXPECT_THAT(layered.notes, Contains(HasSubstr("3 fields of humidity on levels")));
    EXPECT_THAT(layered.notes, Contains(HasSubstr("1 field of total, convective")));
}

TEST(LayersByBand, ALongGapBetweenStepsIsNoted) {
    const auto at = [](int of_day) {
        return each(three_layers(0.1, 0.2, 0.3),
                    [=](Field field) { return at_hour(of_day, std::move(field)); });
    };
    EXPECT_THAT(layers_in({at(0), at(7)}).notes,
                Contains(HasSubstr("from 2025-01-29T00:00:00Z to 2025-01-29T07:00:00Z, 7 h, no step")));
    EXPECT_THAT(layers_in({at(0), at(6)}).notes, Not(Contains(HasSubstr("no step"))));
}

}  // namespace
}  // namespace gloam::weather
