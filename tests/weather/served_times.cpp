// Which instants a forecast serves.
#include "weather/served_times.hpp"

#include <gmock/gmock.h>

#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using std::chrono::minutes;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

LayeredMember member_with(std::initializer_list<std::string_view> times) {
    LayeredMember member;
    for (const auto time : times) {
        LayerStep step;
        step.valid = at(time);
        member.steps.push_back(std::move(step));
    }
    return member;
}

LayeredForecast forecast_with(std::initializer_list<LayeredMember> members) {
    LayeredForecast forecast;
    forecast.members = members;
    return forecast;
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
    EXPECT_THAT(valid_times(forecast), ElementsAre(at("2025-01-29T06:00:00Z"), at("2025-01-29T09:00:00Z")));
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

}  // namespace
}  // namespace gloam::weather
