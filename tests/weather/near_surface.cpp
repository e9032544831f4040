#include "weather/near_surface.hpp"

#include <gtest/gtest.h>

#include "weather/made_fields.hpp"

namespace gloam::weather {
namespace {

constexpr geo::LatLon kHere{59.5, 0.5};
constexpr Level kAt2m{.kind = LevelKind::kAboveGround, .height_m = 2.0};
constexpr Level kAt10m{.kind = LevelKind::kAboveGround, .height_m = 10.0};
constexpr Level kGround{.kind = LevelKind::kSurface};

NearSurface found_in(Fields fields) {
    Forecast forecast;
    forecast.fields = std::move(fields);
    return near_surface(forecast, kHere, hour(5), hour(7));
}

TEST(NearSurface, IsTheWorstOfMembersAndTimes) {
    const NearSurface found = found_in({of_member(1, made(Quantity::kGust, kGround, 9.0)),
                                        of_member(2, made(Quantity::kGust, kGround, 17.0)),
                                        at_hour(7, of_member(1, made(Quantity::kGust, kGround, 12.0))),
                                        made(Quantity::kTemperature, kAt2m, 271.0),
                                        at_hour(7, made(Quantity::kTemperature, kAt2m, 274.0)),
                                        made(Quantity::kVisibility, kGround, 900.0),
                                        at_hour(5, made(Quantity::kVisibility, kGround, 150.0))});
    EXPECT_EQ(found.gust_m_s, 17.0);
    EXPECT_EQ(found.least_temperature_k, 271.0);
    EXPECT_EQ(found.most_temperature_k, 274.0);
    EXPECT_EQ(found.visibility_m, 150.0);
}

TEST(NearSurface, JoinsTheTwoComponentsOfOneWind) {
    const NearSurface found = found_in({of_member(1, made(Quantity::kWindEast, kAt10m, 3.0)),
                                        of_member(2, made(Quantity::kWindNorth, kAt10m, 100.0)),
                                        of_member(1, made(Quantity::kWindNorth, kAt10m, -4.0))});
    EXPECT_EQ(found.wind_m_s, 5.0);
}

TEST(NearSurface, LeavesOutOtherHoursAndOtherHeights) {
    const NearSurface found = found_in(
        {at_hour(9, made(Quantity::kGust, kGround, 30.0)), on_level(Quantity::kTemperature, 500.0e2, 240.0)});
    EXPECT_FALSE(found.gust_m_s);
    EXPECT_FALSE(found.least_temperature_k);
}

TEST(NearSurface, ThatNoFieldTellsIsAbsent) {
    const NearSurface found = found_in({made(Quantity::kCloudCover, kGround, 0.5)});
    EXPECT_FALSE(found.visibility_m);
    EXPECT_FALSE(found.precipitation_kg_m2);
    EXPECT_FALSE(found.thunder);
}

TEST(NearSurface, OutsideTheGridIsAbsent) {
    Forecast forecast;
    forecast.fields = {made(Quantity::kGust, kGround, 9.0)};
    EXPECT_FALSE(near_surface(forecast, {10.0, 10.0}, hour(5), hour(7)).gust_m_s);
}

}  // namespace
}  // namespace gloam::weather
