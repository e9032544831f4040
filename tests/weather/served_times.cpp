// Which instants a forecast serves.
#include "weather/served_times.hpp"

#include <gmock/gmock.h>

#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using std::chrono::minutes;
using ::testing::HasSubstr;

LayeredMember member_with(std::initializer_list<std::string_view> times) {
    LayeredMember member;
    for (const auto time : times) {
        LayerStep step;
        step.from = step.to = at(time);
        member.steps.push_back(std::move(step));
    }
    return member;
}

LayeredForecast forecast_with(std::initializer_list<LayeredMember> members) {
    LayeredForecast forecast;
    forecast.members = members;
    return forecast;
}

/// Means over these hours of the day.
LayeredMember averages_over(std::initializer_list<std::pair<int, int>> spans) {
    LayeredMember member;
    for (const auto& [from, to] : spans) {
        LayerStep step;
        step.from = at("2025-01-29T00:00:00Z") + std::chrono::hours(from);
        step.to = at("2025-01-29T00:00:00Z") + std::chrono::hours(to);
        member.steps.push_back(std::move(step));
    }
    return member;
}

TEST(Serves, ASingleStepServesNinetyMinutesEitherSide) {
    const auto forecast = forecast_with({member_with({"2025-01-29T06:00:00Z"})});
    EXPECT_TRUE(serves(forecast, at("2025-01-29T04:30:00Z")));
    EXPECT_TRUE(serves(forecast, at("2025-01-29T07:30:00Z")));
    EXPECT_FALSE(serves(forecast, at("2025-01-29T04:29:59Z")));
    EXPECT_FALSE(serves(forecast, at("2025-01-29T07:30:01Z")));
}

TEST(Serves, EveryMemberHasToServe) {
    const auto forecast = forecast_with({member_with({"2025-01-29T06:00:00Z", "2025-01-29T09:00:00Z"}),
                                         member_with({"2025-01-29T06:00:00Z"})});
    EXPECT_TRUE(serves(forecast, at("2025-01-29T07:00:00Z")));
    EXPECT_FALSE(serves(forecast, at("2025-01-29T09:00:00Z")));
}

TEST(BlendAt, IsLinearBetweenSteps) {
    const auto member = member_with({"2025-01-29T03:00:00Z", "2025-01-29T06:00:00Z", "2025-01-29T09:00:00Z"});
    const auto blend = blend_at(member, at("2025-01-29T06:45:00Z"), Duration(0)).value();
    EXPECT_EQ(blend.earlier, &member.steps[1]);
    EXPECT_EQ(blend.later, &member.steps[2]);
    EXPECT_DOUBLE_EQ(blend.later_share, 0.25);
}

TEST(BlendAt, AStepStandsAloneAtItsTimeAndBeyondTheLast) {
    const auto member = member_with({"2025-01-29T03:00:00Z", "2025-01-29T06:00:00Z"});
    for (const auto* time : {"2025-01-29T06:00:00Z", "2025-01-29T07:30:00Z"}) {
        const auto blend = blend_at(member, at(time), Duration(0)).value();
        EXPECT_EQ(blend.earlier, &member.steps[1]);
        EXPECT_EQ(blend.later_share, 0.0);
    }
}

TEST(BlendAt, ADelayIsHeldWithinTheSteps) {
    const auto member = member_with({"2025-01-29T03:00:00Z", "2025-01-29T06:00:00Z"});
    const auto near_end = at("2025-01-29T05:45:00Z");
    EXPECT_EQ(blend_at(member, near_end, minutes(30)).value().earlier, &member.steps[1]);
    EXPECT_DOUBLE_EQ(blend_at(member, near_end, minutes(-30)).value().later_share, 2.25 / 3.0);
    EXPECT_EQ(blend_at(member, at("2025-01-29T03:10:00Z"), minutes(-30)).value().earlier, &member.steps[0]);
}

TEST(BlendAt, TheRefusalNamesBothTimes) {
    const auto blend =
        blend_at(member_with({"2025-01-29T06:00:00Z"}), at("2025-01-29T07:31:00Z"), minutes(-30));
    ASSERT_FALSE(blend);
    EXPECT_EQ(blend.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_THAT(blend.error().message, HasSubstr("2025-01-29T06:00:00Z"));
    EXPECT_THAT(blend.error().message, HasSubstr("2025-01-29T07:31:00Z"));
    EXPECT_THAT(blend.error().hint, HasSubstr("90 minutes"));
}

TEST(Serves, AnAverageServesItsHoursWithBothEndsAndNoOthers) {
    const auto forecast = forecast_with({averages_over({{3, 6}, {9, 12}})});
    EXPECT_TRUE(serves(forecast, at("2025-01-29T03:00:00Z")));
    EXPECT_TRUE(serves(forecast, at("2025-01-29T06:00:00Z")));
    EXPECT_FALSE(serves(forecast, at("2025-01-29T02:59:59Z")));
    EXPECT_FALSE(serves(forecast, at("2025-01-29T07:00:00Z")));
    EXPECT_FALSE(serves(forecast, at("2025-01-29T12:00:01Z")));
}

TEST(BlendAt, OfAveragesTheShortestThatHoldsTheInstantStandsAlone) {
    const auto member = averages_over({{0, 6}, {3, 6}, {4, 6}, {6, 12}});
    const auto blend = blend_at(member, at("2025-01-29T05:00:00Z"), Duration(0)).value();
    EXPECT_EQ(blend.earlier, &member.steps[2]);
    EXPECT_EQ(blend.later, &member.steps[2]);
    EXPECT_EQ(blend_at(member, at("2025-01-29T03:30:00Z"), Duration(0)).value().earlier, &member.steps[1]);
    EXPECT_EQ(blend_at(member, at("2025-01-29T01:00:00Z"), Duration(0)).value().earlier, &member.steps[0]);
}

TEST(BlendAt, OfTwoAveragesAsShortTheEarlierIsRead) {
    const auto member = averages_over({{3, 6}, {6, 9}});
    EXPECT_EQ(blend_at(member, at("2025-01-29T06:00:00Z"), Duration(0)).value().earlier, &member.steps[0]);
}

TEST(BlendAt, ADelayReadsAnotherAverageOrTheNearest) {
    const auto member = averages_over({{0, 3}, {3, 6}, {9, 12}});
    const auto five = at("2025-01-29T05:00:00Z");
    EXPECT_EQ(blend_at(member, five, minutes(-180)).value().earlier, &member.steps[0]);
    EXPECT_EQ(blend_at(member, five, minutes(120)).value().earlier, &member.steps[1]);
    EXPECT_EQ(blend_at(member, five, minutes(200)).value().earlier, &member.steps[2]);
    EXPECT_EQ(blend_at(member, five, std::chrono::hours(40)).value().earlier, &member.steps[2]);
}

TEST(SpanHours, AreThoseOfTheAverageReadAndNoneOfAnInstant) {
    const auto member = averages_over({{0, 6}, {3, 6}, {6, 12}});
    EXPECT_EQ(span_hours_at(member, at("2025-01-29T02:00:00Z")), 6.0);
    EXPECT_EQ(span_hours_at(member, at("2025-01-29T05:00:00Z")), 3.0);
    EXPECT_EQ(span_hours_at(member, at("2025-01-29T18:00:00Z")), 6.0);
    EXPECT_EQ(span_hours_at(member_with({"2025-01-29T06:00:00Z"}), at("2025-01-29T07:00:00Z")), 0.0);
}

}  // namespace
}  // namespace gloam::weather
