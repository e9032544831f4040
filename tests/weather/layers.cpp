// From synthetic columns to three layers.
#include "weather/layers.hpp"

#include <gmock/gmock.h>

#include <algorithm>

#include "air/standard_atmosphere.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using std::chrono::minutes;
using synthetic::Bytes;
using synthetic::SyntheticGrid;
using synthetic::SyntheticMessage;
using ::testing::Contains;
using ::testing::Each;
using ::testing::FloatNear;
using ::testing::HasSubstr;

constexpr SyntheticGrid kSmall{.rows = 3, .columns = 4};

const LayerField& layer(const LayeredForecast& layered, Band band, std::size_t step = 0) {
    return layered.members.at(0).steps.at(step).bands.at(index_of(band));
}

/// A file with this cover, percent, at these levels, hPa, the same everywhere.
Bytes column(const std::vector<std::pair<double, double>>& levels, int step_minutes = 360,
             std::optional<int> member = {}) {
    Bytes file;
    for (const auto& [level_hpa, percent] : levels) {
        const Bytes one = message({.from = minutes(step_minutes),
                                   .to = minutes(step_minutes),
                                   .member = member,
                                   .pressure_pa = 100.0 * level_hpa,
                                   .grid = kSmall},
                                  [cover = percent](double, double) { return std::optional(cover); });
        file.insert(file.end(), one.begin(), one.end());
    }
    return file;
}

Bytes constant(const SyntheticMessage& about, double value) {
    return message(about, [value](double, double) { return std::optional(value); });
}

double standard_m(double pressure_hpa) {
    return air::pressure_altitude_m(100.0 * pressure_hpa);
}

TEST(Bands, TheirEdges) {
    EXPECT_EQ(band_of(1000e2), Band::kLow);
    EXPECT_EQ(band_of(642.1e2), Band::kLow);
    EXPECT_EQ(band_of(642e2), Band::kMiddle);
    EXPECT_EQ(band_of(400e2), Band::kMiddle);
    EXPECT_EQ(band_of(399.9e2), Band::kHigh);
}

TEST(Layers, ABandHoldsTheMaximumOverItsLevels) {
    const auto layered =
        layers(column({{900, 10}, {800, 70}, {650, 20}, {600, 5}, {400, 45}, {350, 0}, {250, 30}}));
    EXPECT_EQ(layered.route, LayerRoute::kCoverOnLevels);
    EXPECT_THAT(layer(layered, Band::kLow).cover, Each(FloatNear(0.70F, 1e-5F)));
    EXPECT_THAT(layer(layered, Band::kMiddle).cover, Each(FloatNear(0.45F, 1e-5F)));
    EXPECT_THAT(layer(layered, Band::kHigh).cover, Each(FloatNear(0.30F, 1e-5F)));
}

TEST(Layers, BaseAndTopAreTheOuterSlabsWithHalfTheCover) {
    const auto layered = layers(column(
        {{950, 10}, {900, 40}, {850, 80}, {800, 10}, {750, 41}, {700, 39}, {500, 60}, {300, 20}, {200, 0}}));
    const LayerField& low = layer(layered, Band::kLow);
    EXPECT_NEAR(static_cast<double>(low.base_m[0]), standard_m(925), 1.0);  // 900 hPa has exactly half
    EXPECT_NEAR(static_cast<double>(low.top_m[0]), standard_m(725), 1.0);   // 750 has half, 700 has not
    EXPECT_NEAR(static_cast<double>(low.base_slab_m[0]), standard_m(875) - standard_m(925), 1.0);
    const LayerField& middle = layer(layered, Band::kMiddle);
    EXPECT_NEAR(static_cast<double>(middle.base_m[0]), standard_m(600), 1.0);
    EXPECT_NEAR(static_cast<double>(middle.top_m[0]), standard_m(400), 1.0);
}

TEST(Layers, AClearBandHasNoHeights) {
    const auto layered = layers(column({{850, 0}, {500, 60}, {300, 0}}));
    EXPECT_THAT(layer(layered, Band::kLow).cover, Each(0.0F));
    EXPECT_THAT(layer(layered, Band::kLow).base_m, Each(0.0F));
    EXPECT_THAT(layer(layered, Band::kHigh).top_m, Each(0.0F));
}

TEST(Layers, TheOrderOfMessagesDoesNotMatter) {
    const auto sorted = layers(column({{900, 10}, {850, 80}, {500, 60}, {400, 20}, {300, 30}}));
    const auto unsorted = layers(column({{300, 30}, {850, 80}, {400, 20}, {900, 10}, {500, 60}}));
    for (const Band band : kBands) {
        EXPECT_EQ(layer(sorted, band).cover, layer(unsorted, band).cover);
        EXPECT_EQ(layer(sorted, band).base_m, layer(unsorted, band).base_m);
        EXPECT_EQ(layer(sorted, band).top_m, layer(unsorted, band).top_m);
    }
}

TEST(Layers, GeopotentialHeightsReplaceTheStandardOnes) {
    const Bytes cover = column({{850, 50}, {500, 60}, {300, 30}});
    EXPECT_TRUE(layers(cover).heights_from_standard_atmosphere);
    const Bytes heights = synthetic::joined(
        {constant({.category = 3, .number = 5, .pressure_pa = 850e2, .grid = kSmall}, 1457.0 + 100.0),
         constant({.category = 3, .number = 5, .pressure_pa = 300e2, .grid = kSmall}, 9164.0 + 100.0)});
    const auto layered = layers(synthetic::joined({cover, heights}));
    EXPECT_FALSE(layered.heights_from_standard_atmosphere);
    for (const Band band : kBands) {
        EXPECT_NEAR(
            static_cast<double>(layer(layered, band).base_m[5] - layer(layers(cover), band).base_m[5]), 100.0,
            2.0);
    }
}

TEST(Layers, TotalConvectiveAndBoundaryLayerCoverAreNotAdded) {
    const Bytes levels = column({{850, 10}, {500, 20}, {300, 30}});
    const auto layered =
        layers(synthetic::joined({levels, constant({.level_type = 10, .grid = kSmall}, 100.0),
                                  constant({.level_type = 244, .grid = kSmall}, 100.0),
                                  constant({.level_type = 211, .grid = kSmall}, 100.0)}));
    EXPECT_THAT(layer(layered, Band::kLow).cover, Each(FloatNear(0.10F, 1e-5F)));
    EXPECT_THAT(layer(layered, Band::kMiddle).cover, Each(FloatNear(0.20F, 1e-5F)));
    EXPECT_THAT(layer(layered, Band::kHigh).cover, Each(FloatNear(0.30F, 1e-5F)));
    EXPECT_THAT(layered.notes,
                Contains(HasSubstr("3 fields of total, convective, boundary-layer or fog cover")));
}

TEST(Layers, AnAverageBesideAnInstantIsLeftOut) {
    const Bytes levels = column({{850, 10}, {500, 20}, {300, 30}});
    Bytes averages;
    for (const double level_hpa : {850.0, 500.0, 300.0}) {
        averages = synthetic::joined(
            {averages,
             constant({.from = minutes(0), .pressure_pa = 100 * level_hpa, .grid = kSmall}, 100.0)});
    }
    const auto layered = layers(synthetic::joined({averages, levels}));
    EXPECT_EQ(layered.members.at(0).steps.size(), 1U);
    EXPECT_THAT(layer(layered, Band::kLow).cover, Each(FloatNear(0.10F, 1e-5F)));
    EXPECT_THAT(
        layered.notes,
        Contains(HasSubstr("not used beside cloud cover on levels: 3 fields of cover over a span of time")));
}

TEST(Layers, AveragesOnLevelsAloneAreRefused) {
    const auto layered = layers_of(read(constant({.from = minutes(0), .grid = kSmall}, 50.0)));
    ASSERT_FALSE(layered);
    EXPECT_EQ(layered.error().kind, ErrorKind::kUnsupported);
    EXPECT_THAT(layered.error().message, HasSubstr("only over spans of time"));
    EXPECT_FALSE(layered.error().hint.empty());
}

TEST(Layers, TheTotalAloneIsInEveryBand) {
    const auto layered =
        layers(synthetic::joined({constant({.level_type = 10, .grid = kSmall}, 60.0),
                                  constant({.from = minutes(0), .level_type = 10, .grid = kSmall}, 90.0)}));
    EXPECT_EQ(layered.route, LayerRoute::kTotalOnly);
    for (const Band band : kBands) {
        EXPECT_THAT(layer(layered, band).cover, Each(FloatNear(0.60F, 1e-5F)));
        EXPECT_THAT(layer(layered, band).base_m,
                    Each(FloatNear(static_cast<float>(kUsualHeights[index_of(band)].base_m), 0.1F)));
    }
    EXPECT_THAT(layered.notes, Contains(HasSubstr("which layer holds it is unknown")));
}

TEST(Layers, ABandWithoutAnyLevelIsNotTakenForClear) {
    const auto refused = layers_of(read(column({{850, 10}, {500, 20}})));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kIncomplete);
    EXPECT_THAT(refused.error().message, HasSubstr("high layer"));
    const auto total = layers(synthetic::joined(
        {column({{850, 10}, {500, 20}}), constant({.level_type = 10, .grid = kSmall}, 60.0)}));
    EXPECT_EQ(total.route, LayerRoute::kTotalOnly);
}

TEST(Layers, NoCoverAtAllIsAnError) {
    const auto nothing = layers_of(read(constant({.category = 3, .number = 5, .grid = kSmall}, 5500.0)));
    ASSERT_FALSE(nothing);
    EXPECT_EQ(nothing.error().kind, ErrorKind::kIncomplete);
    EXPECT_FALSE(nothing.error().hint.empty());
    EXPECT_FALSE(layers_of(Forecast{}));
}

TEST(Layers, StepsAreInTimeOrder_AMissingLevelIsNoted) {
    const auto layered = layers(synthetic::joined({column({{850, 10}, {700, 40}, {500, 20}, {300, 30}}, 540),
                                                   column({{850, 10}, {500, 20}, {300, 30}}, 360)}));
    const auto& steps = layered.members.at(0).steps;
    ASSERT_EQ(steps.size(), 2U);
    EXPECT_EQ(steps[0].to, at("2025-01-29T06:00:00Z"));
    EXPECT_EQ(steps[1].to, at("2025-01-29T09:00:00Z"));
    EXPECT_THAT(layered.notes, Contains(HasSubstr("2025-01-29T06:00:00Z lacks cloud cover at 700 hPa")));
    EXPECT_THAT(layer(layered, Band::kLow, 0).cover, Each(FloatNear(0.10F, 1e-5F)));
    EXPECT_THAT(layer(layered, Band::kLow, 1).cover, Each(FloatNear(0.40F, 1e-5F)));
}

TEST(Layers, AStepWithHalfTheLevelsIsUsedAndTheOthersAreNamed) {
    const auto layered = layers(
        synthetic::joined({column({{900, 10}, {850, 30}, {600, 20}, {500, 60}, {350, 30}, {300, 80}}, 360),
                           column({{900, 10}, {600, 20}, {350, 30}}, 540)}));
    EXPECT_EQ(layered.members.at(0).steps.size(), 2U);
    EXPECT_THAT(layered.notes, Contains(HasSubstr("lacks cloud cover at 850, 500, 300 hPa")));
    EXPECT_THAT(layer(layered, Band::kHigh, 1).cover, Each(FloatNear(0.30F, 1e-5F)));
}

TEST(Layers, AStepWithoutABandIsLeftOutAndNoted) {
    const auto layered = layers(synthetic::joined(
        {column({{850, 10}, {500, 20}, {300, 30}}, 360), column({{850, 10}, {500, 20}}, 540)}));
    EXPECT_EQ(layered.members.at(0).steps.size(), 1U);
    EXPECT_THAT(layered.notes, Contains(HasSubstr("2025-01-29T09:00:00Z is left out")));
}

TEST(Layers, MembersAreKeptApart_AMissingTimeIsNoted) {
    const auto layered = layers(synthetic::joined({column({{850, 70}, {500, 0}, {300, 0}}, 360, 2),
                                                   column({{850, 10}, {500, 0}, {300, 0}}, 360, 1),
                                                   column({{850, 20}, {500, 0}, {300, 0}}, 540, 1)}));
    ASSERT_EQ(layered.members.size(), 2U);
    EXPECT_EQ(layered.members[0].member, 1);
    EXPECT_EQ(layered.members[0].steps.size(), 2U);
    EXPECT_EQ(layered.members[1].member, 2);
    EXPECT_NEAR(layered.members[1].steps[0].bands[0].cover[0], 0.70F, 1e-5F);
    EXPECT_THAT(layered.notes, Contains(HasSubstr("2025-01-29T09:00:00Z of member 2 is missing")));
}

TEST(Layers, FieldsOnAnotherGridAreLeftOutAndNoted) {
    const Bytes levels = column({{850, 10}, {500, 20}, {300, 30}});
    const Bytes other = constant({.pressure_pa = 700e2, .grid = {.rows = 5, .columns = 5}}, 90.0);
    const auto layered = layers(synthetic::joined({levels, other}));
    EXPECT_THAT(layer(layered, Band::kLow).cover, Each(FloatNear(0.10F, 1e-5F)));
    EXPECT_THAT(layered.notes, Contains(HasSubstr("left out: 1 field on another grid")));
}

TEST(Layers, AColumnIsAbsentWhereABandHasNoValue) {
    const auto masked = [](double pressure_pa) {
        return message({.pressure_pa = pressure_pa, .grid = kSmall},
                       [](double lat, double) { return lat == 60.0 ? std::nullopt : std::optional(50.0); });
    };
    const auto one_level =
        layers(synthetic::joined({masked(950e2), column({{850, 10}, {500, 20}, {300, 30}})}));
    EXPECT_THAT(one_level.members[0].steps[0].present, Each(1));  // 950 hPa may lie below the ground
    const auto whole_band =
        layers(synthetic::joined({masked(950e2), masked(850e2), column({{500, 20}, {300, 30}})}));
    EXPECT_EQ(std::ranges::count(whole_band.members[0].steps[0].present, 0), 4);
    EXPECT_THAT(whole_band.notes, Contains(HasSubstr("missing in 4 of 12 columns")));
}

}  // namespace
}  // namespace gloam::weather
