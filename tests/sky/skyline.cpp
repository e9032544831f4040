// Land round a stand: synthetic skylines.
#include "sky/skyline.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/check.hpp"
#include "sky/night.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::default_air;
using test::high_layer;
using test::middle_layer;
using test::sun_at;

const Azimuth kSun = Azimuth::degrees(110.0);

SkylinePoint point(double bearing_deg, double elevation_deg, double distance_m = 10e3) {
    return {Azimuth::degrees(bearing_deg), Angle::degrees(elevation_deg), distance_m};
}

Skyline all_round(double elevation_deg, double distance_m) {
    return Skyline::of({point(0.0, elevation_deg, distance_m)}).value();
}

CloudField with_land(const Skyline& skyline, std::vector<CloudLayer> layers = {}) {
    return CloudField(std::move(layers), land_edge(skyline, 0.0, kSun));
}

double zenith_seen_rad(double height_m, double sun_deg) {
    return default_air().beam.columns().apparent_zenith_rad(height_m, test::zenith_rad(sun_deg));
}

TEST(Skyline, RunsStraightBetweenItsPoints) {
    const Skyline skyline = Skyline::of({point(90.0, 4.0, 20e3), point(80.0, 2.0, 10e3)}).value();
    const SkylinePoint between = skyline.at(Azimuth::degrees(85.0));
    EXPECT_NEAR(between.elevation.degrees(), 3.0, 1e-9);
    EXPECT_NEAR(between.distance_m, 15e3, 1e-6);
}

TEST(Skyline, RunsOnAcrossNorth) {
    const Skyline skyline = Skyline::of({point(350.0, 2.0), point(10.0, 4.0)}).value();
    EXPECT_NEAR(skyline.at(Azimuth::degrees(0.0)).elevation.degrees(), 3.0, 1e-9);
    EXPECT_NEAR(skyline.at(Azimuth::degrees(355.0)).elevation.degrees(), 2.5, 1e-9);
    EXPECT_NEAR(skyline.at(Azimuth::degrees(180.0)).elevation.degrees(), 3.0, 1e-9);
}

TEST(Skyline, WithBadNumbersIsRefused) {
    constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
    const std::vector<std::vector<SkylinePoint>> bad{
        {},
        {point(10.0, kNan)},
        {point(10.0, 95.0)},
        {point(10.0, 1.0, kNan)},
        {point(10.0, 1.0, 0.0)},
        {point(10.0, 1.0, 1e9)},
        {point(10.0, 1.0), point(370.0, 2.0)},
    };
    for (std::size_t i = 0; i < bad.size(); ++i) {
        const auto skyline = Skyline::of(bad[i]);
        ASSERT_FALSE(skyline) << i;
        EXPECT_EQ(skyline.error().kind, ErrorKind::kBadInput) << i;
        EXPECT_FALSE(skyline.error().hint.empty()) << i;
    }
}

// A ridge 10 km off, 5 deg up, is 875 m high; at its foot the sun at +3 deg is behind it, at +7 deg over it.
TEST(LandUpSun, HidesTheSunUntilItStandsOverTheRidge) {
    const CloudField clouds = with_land(all_round(5.0, 10e3));
    EXPECT_EQ(clouds.sun_free({0.0, 0.0, 2.0}, zenith_seen_rad(2.0, 3.0)), 0.0);
    EXPECT_EQ(clouds.sun_free({0.0, 0.0, 2.0}, zenith_seen_rad(2.0, 7.0)), 1.0);
}

TEST(LandUpSun, LeavesWhatIsHigherThanTheRidgeInTheSun) {
    const CloudField clouds = with_land(all_round(5.0, 10e3));
    EXPECT_EQ(clouds.sun_free({0.0, 0.0, 500.0}, zenith_seen_rad(500.0, 0.0)), 0.0);
    EXPECT_EQ(clouds.sun_free({0.0, 0.0, 4000.0}, zenith_seen_rad(4000.0, 0.0)), 1.0);
}

TEST(LandUpSun, DoesNotShadeWhatLiesBeyondIt) {
    const CloudField clouds = with_land(all_round(5.0, 10e3));
    EXPECT_EQ(clouds.sun_free({12e3, 0.0, 100.0}, zenith_seen_rad(100.0, 1.0)), 1.0);
}

// A 2 km ridge 160 km up-sun stands at the lowest point of rays to cloud at 2 km.
TEST(LandUpSun, FarOffTakesTheLastLightFromMiddleCloud) {
    const double elevation_deg = -0.05;  // 2 km of height at 160 km, less the Earth's curve
    const CloudField clouds = with_land(all_round(elevation_deg, 160e3));
    EXPECT_EQ(clouds.sun_free({0.0, 0.0, 4000.0}, zenith_seen_rad(4000.0, -2.5)), 0.0);
    EXPECT_EQ(clouds.sun_free({0.0, 0.0, 4000.0}, zenith_seen_rad(4000.0, -1.0)), 1.0);
}

Panorama painted(const Skyline& skyline, double sun_deg, std::vector<CloudLayer> layers = {}) {
    const CloudField clouds = with_land(skyline, std::move(layers));
    Panorama panorama =
        SkyPainter(default_air(), 0.0, PanoramaGrid::standard()).paint(clouds, sun_at(sun_deg));
    put_land(skyline, kSun, default_air(), 0.0, panorama);
    return panorama;
}

TEST(LandBeforeTheSky, StandsBelowTheSkylineOnly) {
    const Panorama panorama = painted(all_round(8.0, 5e3), -2.0);
    for (std::size_t a = 0; a < panorama.grid.azimuths.size(); ++a) {
        EXPECT_EQ(panorama.cell(1, a).patches[0].layer, Patch::kLand) << "6 deg up";
        EXPECT_EQ(panorama.cell(1, a).count, 1U);
        EXPECT_EQ(panorama.cell(2, a).patches[0].layer, Patch::kClearAir) << "10 deg up";
    }
}

TEST(LandBeforeTheSky, StandsAtItsBearing) {
    const Skyline skyline = Skyline::of({point(199.0, -1.0), point(200.0, 20.0), point(201.0, -1.0)}).value();
    const Panorama panorama = painted(skyline, -2.0);
    EXPECT_EQ(panorama.grid.azimuths[17].degrees(), 90.0) << "200 deg, the sun being at 110";
    EXPECT_EQ(panorama.cell(1, 17).patches[0].layer, Patch::kLand);
    EXPECT_NE(panorama.cell(1, 5).patches[0].layer, Patch::kLand) << "90 deg to the left of the sun";
}

// It is lit by the whole sky, so the night must be in it already.
TEST(LandBeforeTheSky, BeforeTheNightWasAddedIsAFault) {
    Panorama panorama = painted(all_round(8.0, 5e3), -12.0);
    EXPECT_THROW(add_night({}, default_air(), CloudField({}), panorama), InternalError);
}

TEST(LandBeforeTheSky, NearIsDarkAndFarIsHazy) {
    const Panorama open = painted(all_round(-1.0, 1e3), -2.0);
    const Panorama near = painted(all_round(8.0, 200.0), -2.0);
    const Panorama far = painted(all_round(8.0, 40e3), -2.0);
    EXPECT_LT(near.cell(0, 11).mean().y, 0.2 * open.cell(0, 11).mean().y);
    EXPECT_GT(far.cell(0, 11).mean().y, 2.0 * near.cell(0, 11).mean().y);
}

TEST(LandUpSun, DimsTheCloudAboveIt) {
    const Panorama free = painted(all_round(-1.0, 1e3), -1.0, {middle_layer(0.5, 100.0)});
    const Panorama shut = painted(all_round(2.0, 100e3), -1.0, {middle_layer(0.5, 100.0)});
    EXPECT_LT(shut.cell(4, 11).patches[0].light.y, 0.8 * free.cell(4, 11).patches[0].light.y);
}

}  // namespace
}  // namespace gloam::sky
