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

TEST(Members, OfAForecastForOnePointOpenAndShutThePathUpSun) {
    auto forecast = forecast_of(1, 1);
    forecast.grid = weather::PointGrid{{0.0, 0.0}};
    const auto members = members_of(forecast, synthetic::equator_dawn());
    const auto count = [&](AssumedPath path) { return std::ranges::count(members, path, &Member::path); };
    EXPECT_EQ(members.front().path, AssumedPath::kAsForecast);
    EXPECT_EQ(count(AssumedPath::kOpen), 15);
    EXPECT_EQ(count(AssumedPath::kShut), 15);
}

TEST(Members, OfAForecastOnAGridBelieveIt) {
    for (const Member& member : members_of(forecast_of(1, 1), synthetic::equator_dawn())) {
        EXPECT_EQ(member.path, AssumedPath::kAsForecast);
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

/// One run, or an ensemble, whose steps are means over hours; the event lies in the second.
weather::LayeredForecast averages_of(std::size_t members) {
    auto forecast = forecast_of(members, 2, weather::LayerRoute::kAveragedLayers);
    const Instant run = synthetic::equator_dawn().run_time;
    for (auto& member : forecast.members) {
        member.steps[0].from = run;
        member.steps[0].to = member.steps[1].from = run + std::chrono::hours(4);
        member.steps[1].to = run + std::chrono::hours(10);
    }
    return forecast;
}

double spread_along_m(const std::vector<Member>& members) {
    double sum = 0.0;
    for (const Member& member : members) {
        sum += std::pow(member.draw.displacement.along_m, 2);
    }
    return std::sqrt(sum / static_cast<double>(members.size()));
}

TEST(Members, OfAveragesAreDisplacedAndNotShiftedInTime) {
    const auto members = members_of(averages_of(1), synthetic::equator_dawn());
    const double drifted_m = 15.0 * 3.0 * 3600.0 / std::sqrt(3.0);
    EXPECT_NEAR(spread_along_m(members) / std::hypot(52.0e3, drifted_m), 1.0, 0.03);
    EXPECT_EQ(members[1].draw.displacement.later, Duration(0));
}

TEST(Members, OfARealEnsembleOfAveragesAreDisplacedByTheDriftAlone) {
    const double drifted_m = 15.0 * 3.0 * 3600.0 / std::sqrt(3.0);
    EXPECT_NEAR(spread_along_m(members_of(averages_of(31), synthetic::equator_dawn())) / drifted_m, 1.0,
                0.03);
}

TEST(Members, DoubtCoverThatWasWorkedOutOrAveragedAndNoOther) {
    using weather::LayerRoute;
    for (const auto& [route, doubted] : {std::pair{LayerRoute::kCoverOnLevels, false},
                                         {LayerRoute::kCoverByLayer, false},
                                         {LayerRoute::kHumidityOnLevels, true},
                                         {LayerRoute::kAveragedLayers, true},
                                         {LayerRoute::kTotalOnly, false}}) {
        const auto members = members_of(forecast_of(1, 2, route), synthetic::equator_dawn());
        EXPECT_EQ(members[1].draw.cover_power != 1.0, doubted);
    }
}

}  // namespace
}  // namespace gloam::outlook
