#include "outlook/members.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/equator_dawn.hpp"

namespace gloam::outlook {
namespace {

weather::LayeredForecast forecast_of(std::size_t members, std::size_t steps,
                                     weather::LayerRoute route = weather::LayerRoute::kCoverOnLevels) {
    weather::LayeredForecast forecast;
    forecast.route = route;
    forecast.members.resize(members);
    for (auto& member : forecast.members) {
        member.steps.resize(steps);
    }
    return forecast;
}

TEST(Members, OfOneRunAreThirtyOneDisplacedReadings) {
    const auto members = members_of(forecast_of(1, 1), synthetic::equator_dawn());
    ASSERT_EQ(members.size(), 31U);
    for (std::size_t i = 0; i < members.size(); ++i) {
        EXPECT_EQ(members[i].forecast_member, 0U);
        EXPECT_FALSE(members[i].only);
        EXPECT_EQ(i == 0, std::abs(members[i].draw.displacement.along_m) < 1.0);
    }
}

TEST(Members, OfARealEnsembleReadTheirOwnForecastWhereItStands) {
    const auto members = members_of(forecast_of(20, 2), synthetic::equator_dawn());
    ASSERT_EQ(members.size(), 20U);
    for (std::size_t i = 0; i < members.size(); ++i) {
        EXPECT_EQ(members[i].forecast_member, i);
        EXPECT_EQ(members[i].draw.displacement.along_m, 0.0);
        EXPECT_EQ(members[i].draw.displacement.later, Duration(0));
    }
}

TEST(Members, OfSeveralStepsAreShiftedInTime) {
    const auto members = members_of(forecast_of(1, 2), synthetic::equator_dawn());
    EXPECT_NE(members[1].draw.displacement.later, Duration(0));
}

TEST(Members, OfATotalPutItLowMiddleAndHighInTurn) {
    const auto members =
        members_of(forecast_of(1, 1, weather::LayerRoute::kTotalOnly), synthetic::equator_dawn());
    for (std::size_t i = 0; i < members.size(); ++i) {
        EXPECT_EQ(members[i].only, weather::kBands[i % 3]);
    }
}

double farthest_m(const EventRequest& request) {
    double farthest = 0.0;
    for (const Member& member : members_of(forecast_of(1, 2), request)) {
        farthest = std::max(farthest, std::abs(member.draw.displacement.along_m));
    }
    return farthest;
}

TEST(Members, AreDisplacedByTheHoursFromRunToSunrise) {  // once counted to midnight: minus one hour, so none
    EventRequest request = synthetic::equator_dawn();
    const double fresh_m = farthest_m(request);  // run 00, sunrise about 06
    request.run_time -= std::chrono::hours(14);
    EXPECT_NEAR(farthest_m(request) / fresh_m, (40.0 + 2.0 * 20.0) / (40.0 + 2.0 * 6.0), 0.01);
}

}  // namespace
}  // namespace gloam::outlook
