// The light path through synthetic forecasts.
#include "weather/light_path.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "geo/geodesic.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using std::chrono::minutes;
using synthetic::SyntheticGrid;
using ::testing::HasSubstr;

constexpr geo::LatLon kViewer{45.0, 15.0};
const Azimuth kEast = Azimuth::degrees(90);
const Instant kSix = parse_rfc3339("2025-01-29T06:00:00Z").value();
constexpr std::size_t kMiddleLine = 2;

/// The sample point at a multiple of the step.
std::size_t point_at(double along_m) {
    return static_cast<std::size_t>(
        std::lround((along_m - LightPathGrid::kFirst_m) / LightPathGrid::kStep_m));
}

/// A grid of half a degree about the viewer, wide enough for every path.
constexpr SyntheticGrid kAround{
    .north_deg = 56.0, .west_deg = -5.0, .step_deg = 0.5, .rows = 45, .columns = 91};

LayeredForecast forecast_of(const synthetic::Cover& cover, int step_minutes = 360) {
    return layers(cover_on_levels(
        {.step_minutes = step_minutes, .grid = kAround, .levels_hpa = {900, 850, 500, 300, 250}}, cover));
}

std::array<LightPathLayer, 3> sample(const LayeredForecast& forecast, const Displacement& displacement = {},
                                     Azimuth sun = kEast) {
    auto layers = sample_light_path(forecast, 0, kViewer, sun, kSix, displacement);
    if (!layers) {
        throw std::runtime_error(to_text(layers.error()));
    }
    return *std::move(layers);
}

float high_cover(const std::array<LightPathLayer, 3>& path, double along_m, std::size_t line = kMiddleLine) {
    return path[index_of(Band::kHigh)].cover[line][point_at(along_m)];
}

/// Cover that grows to the east, linear in longitude, so that bilinear values are exact.
double eastward(double /*lat*/, double lon, double pressure_pa) {
    return pressure_pa < 400e2 ? (lon + 5.0) / 50.0 : 0.0;
}
double southward(double lat, double /*lon*/, double pressure_pa) {
    return pressure_pa < 400e2 ? (56.0 - lat) / 25.0 : 0.0;
}

TEST(LightPath, ReadsTheForecastAtThePlaceOfEachPoint) {
    const auto path = sample(forecast_of(eastward));
    for (const double along_m : {-150.0e3, 0.0, 250.0e3, 700.0e3}) {
        const auto there = geo::travel(kViewer, kEast, along_m).at;
        EXPECT_NEAR(high_cover(path, along_m), eastward(0, there.lon_deg, 300e2), 0.0006) << along_m;
    }
}

TEST(LightPath, TheFirstLineIsToTheLeft) {
    const auto path = sample(forecast_of(southward));  // facing east, the right is south
    for (std::size_t line = 0; line < LightPathGrid::kLines; ++line) {
        const double aside_m =
            LightPathGrid::kFirstAside_m + static_cast<double>(line) * LightPathGrid::kLineSpacing_m;
        const auto there = geo::travel(kViewer, Azimuth::degrees(180), aside_m).at;
        EXPECT_NEAR(high_cover(path, 0.0, line), southward(there.lat_deg, 0, 300e2), 0.0006);
    }
}

TEST(LightPath, EachBandIsItsOwn) {
    const auto path = sample(forecast_of([](double, double, double pressure_pa) {
        return pressure_pa > 642e2 ? 0.2 : pressure_pa < 400e2 ? 0.6 : 0.4;
    }));
    EXPECT_NEAR(path[index_of(Band::kLow)].cover[0][0], 0.2, 1e-4);
    EXPECT_NEAR(path[index_of(Band::kMiddle)].cover[4][170], 0.4, 1e-4);
    EXPECT_NEAR(path[index_of(Band::kHigh)].cover[2][30], 0.6, 1e-4);
}

TEST(LightPath, ADisplacementMovesTheCloudTowardsTheSun) {
    const auto forecast = forecast_of(eastward);
    const auto still = sample(forecast);
    const auto moved = sample(forecast, {.along_m = 50.0e3});
    for (const double along_m : {-100.0e3, 0.0, 300.0e3, 700.0e3}) {
        EXPECT_NEAR(high_cover(moved, along_m), high_cover(still, along_m - 50.0e3), 0.001);
    }
}

TEST(LightPath, ADisplacementAsideMovesTheCloudToTheRight) {
    const auto forecast = forecast_of(southward);
    const auto still = sample(forecast);
    const auto moved = sample(forecast, {.aside_m = 40.0e3});
    for (std::size_t line = 1; line < LightPathGrid::kLines; ++line) {
        EXPECT_NEAR(high_cover(moved, 200.0e3, line), high_cover(still, 200.0e3, line - 1), 0.001);
    }
}

TEST(LightPath, TurnsWithTheSun) {
    const auto forecast = forecast_of(southward);
    const auto south = sample(forecast, {}, Azimuth::degrees(180));
    const auto north = sample(forecast, {}, Azimuth::degrees(0));
    EXPECT_NEAR(high_cover(south, 100.0e3), high_cover(north, -100.0e3), 0.001);
    EXPECT_GT(high_cover(south, 500.0e3), high_cover(south, 0.0));
}

TEST(LightPath, IsLinearInTimeBetweenTwoSteps) {
    const auto step = [](int step_minutes, double cover) {
        return cover_on_levels({.step_minutes = step_minutes, .grid = kAround, .levels_hpa = {850, 500, 300}},
                               [cover](double, double, double) { return cover; });
    };
    const auto forecast = layers(synthetic::joined({step(360, 0.2), step(540, 0.8)}));
    const auto cover_at = [&forecast](Instant instant, Duration later) {
        return sample_light_path(forecast, 0, kViewer, kEast, instant, {.later = later})
            .value()[0]
            .cover[0][0];
    };
    EXPECT_NEAR(cover_at(kSix, minutes(0)), 0.2, 1e-4);
    EXPECT_NEAR(cover_at(kSix + minutes(60), minutes(0)), 0.4, 1e-4);
    EXPECT_NEAR(cover_at(kSix + minutes(60), minutes(30)), 0.5, 1e-4);
    EXPECT_NEAR(cover_at(kSix + minutes(180), minutes(0)), 0.8, 1e-4);
    EXPECT_NEAR(cover_at(kSix + minutes(180), minutes(30)), 0.8, 1e-4);
    EXPECT_NEAR(cover_at(kSix - minutes(90), minutes(0)), 0.2, 1e-4);
}

TEST(LightPath, ASingleStepServesNinetyMinutes) {
    const auto forecast = forecast_of(eastward);
    EXPECT_TRUE(sample_light_path(forecast, 0, kViewer, kEast, kSix + minutes(90), {}));
    const auto refused = sample_light_path(forecast, 0, kViewer, kEast, kSix + minutes(91), {});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kOutOfDomain);
}

TEST(LightPath, APlaceOutsideTheGridIsRefusedByName) {
    const auto forecast = forecast_of(eastward);
    const auto place = sample_light_path(forecast, 0, {-33.9, 18.4}, kEast, kSix, {});
    ASSERT_FALSE(place);
    EXPECT_EQ(place.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_THAT(place.error().message, HasSubstr("does not cover the place"));
    const auto path = sample_light_path(forecast, 0, {45.0, 38.0}, kEast, kSix, {});
    ASSERT_FALSE(path);
    EXPECT_EQ(path.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_THAT(path.error().message, HasSubstr("light path"));
    EXPECT_FALSE(path.error().hint.empty());
}

TEST(LightPath, AMissingColumnOnThePathIsAnErrorThatNamesThePlace) {
    auto forecast = forecast_of(eastward);
    std::ranges::fill(forecast.members[0].steps[0].present, std::uint8_t{0});
    const auto refused = sample_light_path(forecast, 0, kViewer, kEast, kSix, {});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kIncomplete);
    EXPECT_THAT(refused.error().where, HasSubstr("N"));
}

TEST(LightPath, HeightsAreWeightedByCover) {
    // Half the sky holds 80 % at 300 hPa, the other half 20 % at 250 hPa: the base leans to the first.
    const auto forecast = forecast_of([](double lat, double, double pressure_pa) {
        const bool north = lat > 45.0;
        return pressure_pa == 300e2 && north ? 0.8 : pressure_pa == 250e2 && !north ? 0.2 : 0.0;
    });
    const auto only = [](double level_pa) {
        return sample(forecast_of([level_pa](double, double, double pressure_pa) {
            return pressure_pa == level_pa ? 0.5 : 0.0;
        }))[index_of(Band::kHigh)];
    };
    const LightPathLayer mixed = sample(forecast)[index_of(Band::kHigh)];
    const double lower_m = only(300e2).base_m;
    const double upper_m = only(250e2).base_m;
    const double share = (mixed.base_m - lower_m) / (upper_m - lower_m);
    EXPECT_GT(share, 0.20);  // without weights it would be the share of the south, which is well over a half:
    EXPECT_LT(share, 0.45);  // the great circle bends that way
}

TEST(LightPath, TheSpreadIsHalfTheSlabAtTheBaseAndWhatADayIsOffTheStandard) {
    const auto one_level = [](double, double, double pressure_pa) {
        return pressure_pa == 900e2 ? 0.5 : 0.0;
    };
    const LightPathLayer low = sample(forecast_of(one_level))[index_of(Band::kLow)];
    const double slab_m = low.top_m - low.base_m;  // a single slab: top is its upper limit
    EXPECT_NEAR(low.base_spread_m, 0.5 * slab_m + kOffStandard_m[index_of(Band::kLow)], 1.0);
}

TEST(LightPath, OfTheSpreadTheSlabIs150MetresAtLeast) {
    const auto forecast = layers(
        cover_on_levels({.grid = kAround, .levels_hpa = {1000, 975, 950, 500, 300}},
                        [](double, double, double pressure_pa) { return pressure_pa == 975e2 ? 0.5 : 0.0; }));
    const LightPathLayer low = sample(forecast)[index_of(Band::kLow)];
    EXPECT_LT(0.5 * (low.top_m - low.base_m), 120.0);
    EXPECT_DOUBLE_EQ(low.base_spread_m, 150.0 + kOffStandard_m[index_of(Band::kLow)]);
}

TEST(LightPath, AClearLayerHasItsUsualHeights) {
    const auto path = sample(forecast_of([](double, double, double) { return 0.0; }));
    for (const Band band : kBands) {
        EXPECT_DOUBLE_EQ(path[index_of(band)].base_m, kUsualHeights[index_of(band)].base_m);
        EXPECT_DOUBLE_EQ(path[index_of(band)].top_m, kUsualHeights[index_of(band)].top_m);
        EXPECT_DOUBLE_EQ(path[index_of(band)].base_spread_m, 700.0);
    }
}

TEST(LightPath, OfTheTotalAloneEveryLayerHoldsItAndItsHeightIsUnknown) {
    const auto forecast = layers(
        message({.level_type = 10, .grid = kAround}, [](double, double) { return std::optional(60.0); }));
    const auto path = sample(forecast);
    for (const Band band : kBands) {
        EXPECT_NEAR(path[index_of(band)].cover[0][0], 0.6, 1e-4);
        EXPECT_NEAR(path[index_of(band)].base_m, kUsualHeights[index_of(band)].base_m, 0.1);
        EXPECT_NEAR(path[index_of(band)].base_spread_m, 700.0 + kOffStandard_m[index_of(band)], 1e-9);
    }
}

TEST(LightPath, CrossesGreenwichAndTheDateLine) {
    const SyntheticGrid globe{
        .north_deg = 90.0, .west_deg = 0.0, .step_deg = 2.0, .rows = 91, .columns = 180};
    const auto cover = [](double, double lon, double) {
        return 0.5 + 0.4 * std::cos(lon * std::numbers::pi / 180.0);
    };
    const auto forecast = layers(cover_on_levels({.grid = globe, .levels_hpa = {850, 500, 300}}, cover));
    for (const double lon_deg : {-2.0, -178.0, 178.0}) {
        const geo::LatLon viewer{45.0, lon_deg};
        for (const double azimuth_deg : {90.0, 270.0}) {
            const auto path =
                sample_light_path(forecast, 0, viewer, Azimuth::degrees(azimuth_deg), kSix, {}).value();
            const auto there = geo::travel(viewer, Azimuth::degrees(azimuth_deg), 500e3).at;
            EXPECT_NEAR(high_cover(path, 500e3), cover(0, there.lon_deg, 0), 0.001);
        }
    }
}

TEST(LightPath, PassesThePole) {
    const SyntheticGrid globe{
        .north_deg = 90.0, .west_deg = 0.0, .step_deg = 2.0, .rows = 91, .columns = 180};
    const auto forecast =
        layers(cover_on_levels({.grid = globe, .levels_hpa = {850, 500, 300}},
                               [](double lat, double, double) { return lat / 180.0 + 0.5; }));
    const auto path = sample_light_path(forecast, 0, {88.0, 20.0}, Azimuth::degrees(0), kSix, {}).value();
    EXPECT_NEAR(high_cover(path, 223.0e3), 1.0, 0.001);
    EXPECT_NEAR(high_cover(path, 445.0e3), 88.0 / 180.0 + 0.5, 0.001);
}

}  // namespace
}  // namespace gloam::weather
