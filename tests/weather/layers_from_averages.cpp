// From averages over hours to layers; all fields synthetic.
#include <gmock/gmock.h>

#include "weather/column.hpp"
#include "weather/made_fields.hpp"

namespace gloam::weather {
namespace {

using ::testing::Contains;
using ::testing::Each;
using ::testing::FloatEq;
using ::testing::FloatNear;
using ::testing::HasSubstr;

/// Averages of the three layers over these hours, the same in each.
Fields over(int from, int to, double cover) {
    return each(three_layers(cover, cover, cover),
                [=](Field field) { return over_hours(from, to, std::move(field)); });
}

std::vector<float> low_cover(const LayeredForecast& layered, std::size_t step) {
    return layer_of(layered, Band::kLow, step).cover;
}

/// Hours of a step, of the day.
std::pair<int, int> hours_of(const LayerStep& step) {
    const auto in_hours = [](Instant instant) { return static_cast<int>(hours_between(hour(0), instant)); };
    return {in_hours(step.from), in_hours(step.to)};
}

TEST(LayersFromAverages, HoldTheMeanOverTheirHours) {
    const auto layered = layers_in({over(0, 6, 0.4)});
    EXPECT_EQ(layered.route, LayerRoute::kAveragedLayers);
    ASSERT_EQ(layered.members[0].steps.size(), 1U);
    EXPECT_EQ(hours_of(layered.members[0].steps[0]), (std::pair{0, 6}));
    EXPECT_THAT(low_cover(layered, 0), Each(FloatEq(0.4F)));
    EXPECT_TRUE(layered.usual_heights);
}

TEST(LayersFromAverages, ThatStartTogetherAreTakenApart) {
    const auto layered = layers_in({over(0, 6, 0.5), over(0, 3, 0.2)});
    ASSERT_EQ(layered.members[0].steps.size(), 2U);
    EXPECT_EQ(hours_of(layered.members[0].steps[0]), (std::pair{0, 3}));
    EXPECT_EQ(hours_of(layered.members[0].steps[1]), (std::pair{3, 6}));
    EXPECT_THAT(low_cover(layered, 0), Each(FloatEq(0.2F)));
    EXPECT_THAT(low_cover(layered, 1), Each(FloatNear(0.8F, 1e-6F)));  // (6 x .5 - 3 x .2) / 3
}

TEST(LayersFromAverages, WhatIsTakenApartStaysWithinNoneAndAll) {
    EXPECT_THAT(low_cover(layers_in({over(0, 6, 0.3), over(0, 3, 0.9)}), 1), Each(0.0F));
    EXPECT_THAT(low_cover(layers_in({over(0, 6, 0.7), over(0, 3, 0.1)}), 1), Each(1.0F));
}

TEST(LayersFromAverages, ALaterPartOfLessThanAThirdIsNotTakenOut) {  // packing noise grows eleven times
    const auto layered = layers_in({over(0, 6, 0.5), over(0, 5, 0.2)});
    ASSERT_EQ(layered.members[0].steps.size(), 2U);
    EXPECT_EQ(hours_of(layered.members[0].steps[1]), (std::pair{0, 6}));
    EXPECT_THAT(low_cover(layered, 1), Each(FloatEq(0.5F)));
}

TEST(LayersFromAverages, OfSeveralEarlierPartsTheLongestThatLeavesAThirdIsTakenOff) {
    const auto layered = layers_in({over(0, 6, 0.5), over(0, 5, 0.5), over(0, 4, 0.3), over(0, 3, 0.3)});
    std::vector<std::pair<int, int>> hours;
    for (const LayerStep& step : layered.members[0].steps) {
        hours.push_back(hours_of(step));
    }
    EXPECT_THAT(hours,
                ::testing::ElementsAre(std::pair{0, 3}, std::pair{0, 4}, std::pair{3, 5}, std::pair{4, 6}));
    EXPECT_THAT(low_cover(layered, 3), Each(FloatNear(0.9F, 1e-6F)));  // (6 x .5 - 4 x .3) / 2
}

TEST(LayersFromAverages, ThatDoNotStartTogetherStayAsTheyAre) {
    const auto layered = layers_in({over(0, 3, 0.2), over(3, 6, 0.6)});
    EXPECT_THAT(low_cover(layered, 1), Each(FloatEq(0.6F)));
}

TEST(LayersFromAverages, OfOneMemberAreNotTakenOffAnothers) {
    const auto of = [](int member, Fields fields) {
        return each(std::move(fields), [=](Field field) { return of_member(member, std::move(field)); });
    };
    const auto layered = layers_in({of(1, over(0, 3, 0.2)), of(2, over(0, 6, 0.5))});
    ASSERT_EQ(layered.members.size(), 2U);
    EXPECT_EQ(hours_of(layered.members[1].steps[0]), (std::pair{0, 6}));
    EXPECT_THAT(layered.notes, Contains(HasSubstr("the average from 2025-01-29T00:00:00Z to "
                                                  "2025-01-29T06:00:00Z of member 1 is missing")));
}

TEST(LayersFromAverages, ACellIsAbsentWhereEitherAverageIs) {
    const auto layered =
        layers_in({each(over(0, 6, 0.5), [](Field field) { return masked(1, std::move(field)); }),
                   each(over(0, 3, 0.2), [](Field field) { return masked(2, std::move(field)); })});
    EXPECT_EQ(layered.members[0].steps[1].present, (std::vector<std::uint8_t>{1, 0, 0, 1}));
    EXPECT_EQ(low_cover(layered, 1)[2], 0.0F);
}

TEST(LayersFromAverages, ServeTheWholeOfTheirHoursAndNoLonger) {
    const auto layered = layers_in({over(0, 6, 0.4)});
    for (const int of_day : {0, 3, 6}) {
        EXPECT_NEAR(column_at(layered, 0, {59.5, 0.5}, hour(of_day)).value()[0].cover, 0.4, 1e-6);
    }
    const auto refused = column_at(layered, 0, {59.5, 0.5}, hour(6) + std::chrono::minutes(1));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_THAT(refused.error().message, HasSubstr("in averages over hours"));
}

TEST(LayersFromAverages, TheirBaseIsTheAverageOfTheSameHours) {
    const auto bounds = [](int from, int to) {
        return each({base_of(Band::kLow, 900e2), top_of(Band::kLow, 850e2)},
                    [=](Field field) { return over_hours(from, to, std::move(field)); });
    };
    EXPECT_GT(layer_of(layers_in({over(0, 6, 0.4), bounds(3, 6)}), Band::kLow).base_m[0], 999.0F);
    EXPECT_LT(layer_of(layers_in({over(0, 6, 0.4), bounds(0, 6)}), Band::kLow).base_m[0], 995.0F);
}

TEST(LayersFromAverages, GoBeforeTheTotal) {
    const auto layered = layers_in({{total_cover(0.9)}, over(0, 6, 0.4)});
    EXPECT_EQ(layered.route, LayerRoute::kAveragedLayers);
    EXPECT_THAT(layered.notes,
                Contains(HasSubstr("not used beside averages of low, middle and high cloud: 1 field of "
                                   "total, convective, boundary-layer or fog cover")));
}

TEST(LayersFromAverages, AreNotSteadyForWantOfALayer) {
    auto two = over(0, 6, 0.4);
    two.pop_back();
    const auto layered = layers_in({two, {total_cover(0.9)}});
    EXPECT_EQ(layered.route, LayerRoute::kTotalOnly);
    EXPECT_THAT(layered.notes, Contains(HasSubstr("it has no cloud cover of the high layer")));
}

TEST(LayersFromTotals, AnInstantGoesBeforeAnAverage) {
    const auto layered = layers_in({{over_hours(0, 6, total_cover(0.9))}, {total_cover(0.3)}});
    EXPECT_EQ(layered.route, LayerRoute::kTotalOnly);
    EXPECT_FALSE(is_average(layered.members[0].steps[0]));
    EXPECT_THAT(low_cover(layered, 0), Each(FloatEq(0.3F)));
}

TEST(LayersFromTotals, AnAverageServesWhereNothingElseIsThere) {
    const auto layered =
        layers_in({{over_hours(0, 3, total_cover(0.2)), over_hours(0, 6, total_cover(0.5))}});
    EXPECT_EQ(layered.route, LayerRoute::kTotalOnly);
    EXPECT_TRUE(is_average(layered.members[0].steps[1]));
    for (const Band band : kBands) {
        EXPECT_THAT(layer_of(layered, band, 1).cover, Each(FloatNear(0.8F, 1e-6F)));
    }
}

TEST(LayersFromTotals, AnAverageOverNoTimeIsNone) {
    const auto refused = layers_of(together({{over_hours(6, 6, total_cover(0.5))}}));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kUnsupported);
}

}  // namespace
}  // namespace gloam::weather
