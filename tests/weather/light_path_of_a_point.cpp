// The light path of a forecast for one point; all fields synthetic.
#include <gmock/gmock.h>

#include "weather/column.hpp"
#include "weather/light_path.hpp"
#include "weather/made_fields.hpp"

namespace gloam::weather {
namespace {

using std::chrono::minutes;
using ::testing::HasSubstr;

constexpr geo::LatLon kPlace{51.5, -0.1};
const Azimuth kEast = Azimuth::degrees(90);
constexpr std::size_t kMiddleLine = 2;

Field at_point(Field field) {
    field.grid = PointGrid{kPlace};
    field.values.resize(1);
    return field;
}

/// High cloud that grows from none at 00 UTC to all at 10 UTC, an hour a step.
LayeredForecast growing() {
    Forecast forecast;
    for (int of_day = 0; of_day <= 10; ++of_day) {
        for (const Field& field : three_layers(0.0, 0.0, 0.1 * of_day)) {
            forecast.fields.push_back(at_point(at_hour(of_day, field)));
        }
    }
    return layers_of(forecast).value();
}

double high_cover(const Displacement& displacement, double along_m, std::size_t line = kMiddleLine,
                  Instant instant = hour(5)) {
    const auto path = sample_light_path(growing(), 0, kPlace, kEast, instant, displacement).value();
    const auto point = static_cast<std::size_t>((along_m - LightPathGrid::kFirst_m) / LightPathGrid::kStep_m);
    return static_cast<double>(path[index_of(Band::kHigh)].cover[line][point]);
}

TEST(PointLightPath, IsTheColumnOverhead) {
    EXPECT_NEAR(high_cover({}, 0.0), 0.5, 1e-6);
    EXPECT_NEAR(column_at(growing(), 0, kPlace, hour(5)).value()[index_of(Band::kHigh)].cover, 0.5, 1e-6);
}

TEST(PointLightPath, CloudThatComesIsReadLaterByTheTimeItTakes) {
    const Displacement coming{.drift_along_m_s = 20.0};
    EXPECT_NEAR(high_cover(coming, 144.0e3 - 4.0e3), 0.5 + 0.1 * 140.0e3 / 20.0 / 3600.0, 1e-5);
    EXPECT_NEAR(high_cover(coming, -100.0e3), 0.5 - 0.1 * 100.0e3 / 20.0 / 3600.0, 1e-5);
}

TEST(PointLightPath, CloudThatHasLeftIsReadEarlier) {
    const Displacement leaving{.drift_along_m_s = -20.0};
    EXPECT_NEAR(high_cover(leaving, 140.0e3), 0.5 - 0.1 * 140.0e3 / 20.0 / 3600.0, 1e-5);
}

TEST(PointLightPath, CloudAsideHasItsOwnDrift) {
    const Displacement drifting{.drift_aside_m_s = -10.0};
    EXPECT_NEAR(high_cover(drifting, 0.0, 4), 0.5 - 0.1 * 80.0e3 / 10.0 / 3600.0, 1e-5);
    EXPECT_NEAR(high_cover(drifting, 0.0, 0), 0.5 + 0.1 * 80.0e3 / 10.0 / 3600.0, 1e-5);
}

TEST(PointLightPath, AnErrorOfPlaceIsOneOfTime) {
    const Displacement moved{.along_m = 36.0e3, .drift_along_m_s = 10.0};
    EXPECT_NEAR(high_cover(moved, 0.0), 0.4, 1e-5);  // an hour earlier
    EXPECT_NEAR(high_cover({.later = minutes(30)}, 0.0), 0.55, 1e-5);
}

TEST(PointLightPath, IsHeldWithinTheStepsThatAreThere) {
    EXPECT_NEAR(high_cover({.drift_along_m_s = 5.0}, 700.0e3), 1.0, 1e-6);
    EXPECT_NEAR(high_cover({.drift_along_m_s = -5.0}, 700.0e3), 0.0, 1e-6);
}

TEST(PointLightPath, OfAnHourThatIsNotServedIsRefused) {
    const auto refused = sample_light_path(growing(), 0, kPlace, kEast, hour(12), {});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kOutOfDomain);
}

TEST(PointLightPath, OfAPlaceFarOffIsRefused) {
    const auto refused = sample_light_path(growing(), 0, {52.0, -0.1}, kEast, hour(5), {});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_THAT(refused.error().message, HasSubstr("does not cover the place"));
}

TEST(PointLightPath, OfAverageHoursIsThatOfTheHourThatIsOverheadThen) {
    Forecast forecast;
    for (int of_day = 0; of_day < 10; ++of_day) {
        for (const Field& field : three_layers(0.0, 0.0, 0.1 * of_day)) {
            forecast.fields.push_back(at_point(over_hours(of_day, of_day + 1, field)));
        }
    }
    const auto path = sample_light_path(layers_of(forecast).value(), 0, kPlace, kEast, hour(5) + minutes(30),
                                        {.drift_along_m_s = 10.0})
                          .value();
    const auto& cover = path[index_of(Band::kHigh)].cover[kMiddleLine];
    EXPECT_NEAR(cover[30], 0.5, 1e-6);       // overhead
    EXPECT_NEAR(cover[30 + 8], 0.6, 1e-6);   // 40 km: 67 minutes later
    EXPECT_NEAR(cover[30 + 16], 0.7, 1e-6);  // 80 km: 133 minutes later
}

}  // namespace
}  // namespace gloam::weather
