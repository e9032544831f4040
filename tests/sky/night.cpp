#include "sky/night.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::default_air;
using test::high_layer;
using test::low_layer;
using test::sun_at;

MoonState full_moon(double elevation_deg, double azimuth_deg = 180.0) {
    return {Angle::degrees(elevation_deg), Angle::degrees(azimuth_deg), Angle{}, 1.0};
}

Xyz above(const NightLights& lights, double elevation_deg, double azimuth_deg = 0.0) {
    return NightSky(default_air(), lights)
        .from_above(Angle::degrees(elevation_deg), Angle::degrees(azimuth_deg));
}

Panorama dark(const NightLights& lights, std::vector<CloudLayer> layers, double sun_deg = -18.0) {
    const CloudField clouds(std::move(layers));
    const SkyPainter painter(default_air(), 0.0, PanoramaGrid::standard());
    Panorama panorama = painter.paint(clouds, sun_at(sun_deg));
    add_night(lights, default_air(), clouds, panorama);
    return panorama;
}

TEST(MoonlessNight, BrightensTowardsTheHorizonAndPalesInTheAirAtIt) {
    EXPECT_GT(above({}, 25.0).y, 1.1 * above({}, 90.0).y);
    EXPECT_LT(above({}, 0.0).y, 2.0 * above({}, 90.0).y);
}

TEST(MoonlessNight, HasTheColourThatWasMeasured) {
    const Chromaticity colour = chromaticity(above({}, 50.0));
    EXPECT_NEAR(colour.x, 0.38, 0.005);
    EXPECT_NEAR(colour.y, 0.38, 0.005);
}

TEST(MoonlitSky, IsBluerThanTheMoonlessOne) {
    EXPECT_LT(chromaticity(above({full_moon(60.0), 0.0}, 45.0)).x, chromaticity(above({}, 45.0)).x - 0.05);
}

TEST(MoonBeam, IsWarmerThanTheSunAtTheSameHeight) {
    const NightSky night(default_air(), {full_moon(45.0), 0.0});
    Spectrum sun = default_air().beam.transmission(0.0, test::zenith_rad(45.0));
    for (std::size_t b = 0; b < kBands; ++b) {
        sun[b] *= default_air().bands->sun_w_m2_nm[b];
    }
    EXPECT_GT(chromaticity(night.moon_beam()).x, chromaticity(default_air().bands->xyz(sun)).x + 0.01);
}

TEST(MoonlitSky, IsBrightestRoundTheMoon) {
    const NightLights lights{full_moon(30.0, 90.0), 0.0};
    EXPECT_GT(above(lights, 30.0, 80.0).y, above(lights, 30.0, 60.0).y);
    EXPECT_GT(above(lights, 30.0, 60.0).y, above(lights, 30.0, 0.0).y);
}

TEST(MoonlitSky, ComesUpWithTheMoonAndNotAtOnce) {
    double before = above({}, 45.0).y;  // at right angles to the moon
    for (double moon_deg = -18.0; moon_deg <= 10.0; moon_deg += 0.25) {
        const double here = above({full_moon(moon_deg), 0.0}, 45.0, 90.0).y;
        ASSERT_GE(here, before) << moon_deg;
        ASSERT_LT(here, 1.35 * before) << moon_deg;
        before = here;
    }
}

TEST(NewMoon, ShedsNoLight) {
    MoonState moon = full_moon(40.0);
    moon.phase = Angle::degrees(180.0);
    EXPECT_NEAR(above({moon, 0.0}, 45.0).y / above({}, 45.0).y, 1.0, 0.02);
}

TEST(TownLight, IsWhatWasGivenAtTheZenithAndMoreBelowIt) {
    const NightSky night(default_air(), {std::nullopt, 1e-3});
    EXPECT_NEAR(night.from_towns(Angle::degrees(90.0)).y, 1e-3, 1e-12);
    EXPECT_GT(night.from_towns(Angle::degrees(10.0)).y, 2e-3);
}

TEST(TownLight, ThatIsAbsentAddsNothing) {
    EXPECT_EQ(NightSky(default_air(), {}).from_towns(Angle::degrees(5.0)).y, 0.0);
}

TEST(TownLight, BeyondAnyTownIsRefused) {
    for (const double wrong : {-1e-6, 0.2, 1e9, std::numeric_limits<double>::quiet_NaN(),
                               std::numeric_limits<double>::infinity()}) {
        const auto checked = town_zenith_luminance(wrong);
        ASSERT_FALSE(checked) << wrong;
        EXPECT_EQ(checked.error().kind, ErrorKind::kBadInput);
        EXPECT_FALSE(checked.error().hint.empty());
    }
    EXPECT_EQ(town_zenith_luminance(0.0).value(), 0.0);
}

TEST(NightPanorama, OfAClearSkyIsTheSunsAndTheNights) {
    const SkyPainter painter(default_air(), 0.0, PanoramaGrid::standard());
    const Panorama sun = painter.paint(CloudField({}), sun_at(-12.0));
    const Panorama both = dark({}, {}, -12.0);
    EXPECT_NEAR(both.cell(4, 11).mean().y, sun.cell(4, 11).mean().y + above({}, 21.0).y, 1e-12);
}

// Twilight ends in the night, not in black and not at a step.
TEST(NightPanorama, DimsEvenlyFromTwilightIntoTheNight) {
    double before = dark({}, {}, -9.0).cell(4, 0).mean().y;
    for (double sun_deg = -9.25; sun_deg >= -18.0; sun_deg -= 0.25) {
        const double here = dark({}, {}, sun_deg).cell(4, 0).mean().y;
        ASSERT_LT(here, before) << sun_deg;
        ASSERT_GT(here, 0.65 * before) << sun_deg;
        before = here;
    }
    EXPECT_GT(before, above({}, 21.0).y);
    EXPECT_LT(before, 1.2 * above({}, 21.0).y);
}

TEST(NightPanorama, ThickCloudIsDarkerThanTheStarlitSky) {
    const PanoramaCell cell = dark({}, {low_layer(0.5)}).cell(6, 11);
    EXPECT_LT(cell.patches[1].light.y, 0.6 * cell.patches[2].light.y);
    EXPECT_GT(cell.patches[1].light.y, 0.1 * cell.patches[2].light.y);
}

TEST(NightPanorama, CloudThatIsHardlyThereShowsTheNightBehindIt) {
    CloudLayer veil = high_layer(0.5);
    veil.optics.optical_depth = 1e-6;
    const PanoramaCell cell = dark({full_moon(50.0), 0.0}, {veil}).cell(4, 3);
    ASSERT_EQ(cell.count, 3U) << "lit, unlit, clear";
    EXPECT_NEAR(cell.patches[1].light.y / cell.patches[2].light.y, 1.0, 1e-3);
}

}  // namespace
}  // namespace gloam::sky
