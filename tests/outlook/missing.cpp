// What a forecast does not say, by route; no forecast behind it.
#include "outlook/missing.hpp"

#include <gmock/gmock.h>

namespace gloam::outlook {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;
using weather::LayerRoute;

Instant hour(int of_day) {
    return parse_rfc3339("2025-03-20T00:00:00Z").value() + std::chrono::hours(of_day);
}

weather::LayerStep step_over(int from, int to) {
    weather::LayerStep step;
    step.from = hour(from);
    step.to = hour(to);
    return step;
}

weather::LayeredForecast forecast_by(LayerRoute route, std::vector<weather::LayerStep> steps) {
    weather::LayeredForecast forecast;
    forecast.route = route;
    forecast.members.push_back({std::nullopt, std::move(steps)});
    return forecast;
}

/// Moments at these hours, all with the sun at -3 deg.
std::vector<std::string> missing_at(const weather::LayeredForecast& forecast,
                                    std::initializer_list<int> hours_of_day) {
    std::vector<Moment> moments;
    for (const int of_day : hours_of_day) {
        moments.push_back({hour(of_day), {}, {Angle::degrees(-3.0), 1.0}});
    }
    return missing_in(forecast, moments, 351.4);
}

TEST(Missing, SaysHowMuchOzoneIsTaken) {
    const auto forecast = forecast_by(LayerRoute::kHumidityOnLevels, {step_over(3, 3), step_over(6, 6)});
    EXPECT_THAT(missing_at(forecast, {5}), Contains(HasSubstr("ozone (351 DU, usual here")));
}

TEST(Missing, OfHumidityIsCoverItself) {
    const auto forecast = forecast_by(LayerRoute::kHumidityOnLevels, {step_over(3, 3), step_over(6, 6)});
    EXPECT_THAT(missing_at(forecast, {5}), Contains("cloud cover itself (worked out from humidity)"));
}

TEST(Missing, OfAveragesIsTheMinute) {
    const auto forecast = forecast_by(LayerRoute::kAveragedLayers, {step_over(0, 6), step_over(6, 12)});
    EXPECT_THAT(missing_at(forecast, {5, 7}), Contains("the cloud at the minute (averages over 6 h taken)"));
    EXPECT_THAT(missing_at(forecast, {5}), Not(Contains(HasSubstr("other hours"))));
}

TEST(Missing, OfAveragesOfUnlikeLengthBothAreNamed) {
    const auto forecast = forecast_by(LayerRoute::kAveragedLayers, {step_over(0, 6), step_over(6, 9)});
    EXPECT_THAT(missing_at(forecast, {5, 7}), Contains(HasSubstr("averages over 3 to 6 h taken")));
}

TEST(Missing, OfAnAveragedTotalAreTheLayersAndTheMinute) {
    const auto forecast = forecast_by(LayerRoute::kTotalOnly, {step_over(0, 6)});
    EXPECT_THAT(missing_at(forecast, {5}), Contains(HasSubstr("cloud by layer")));
    EXPECT_THAT(missing_at(forecast, {5}), Contains(HasSubstr("at the minute")));
}

TEST(Missing, OfUsualHeightsAreTheHeights) {
    auto forecast = forecast_by(LayerRoute::kCoverByLayer, {step_over(6, 6)});
    EXPECT_THAT(missing_at(forecast, {6}), Not(Contains(HasSubstr("heights"))));
    forecast.usual_heights = true;
    EXPECT_THAT(missing_at(forecast, {6}), Contains("heights of cloud (usual heights of each layer taken)"));
}

TEST(Missing, OfAPointIsTheLightPath) {
    auto forecast = forecast_by(LayerRoute::kCoverByLayer, {step_over(5, 5), step_over(6, 6)});
    EXPECT_THAT(missing_at(forecast, {6}), Not(Contains(HasSubstr("the light path"))));
    forecast.grid = weather::PointGrid{};
    EXPECT_THAT(missing_at(forecast, {6}),
                Contains("the light path (a forecast for one point: up-sun half the members take no "
                         "cloud, half a bank)"));
}

}  // namespace
}  // namespace gloam::outlook
