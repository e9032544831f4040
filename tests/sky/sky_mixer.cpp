#include "sky/sky_mixer.hpp"

#include <gtest/gtest.h>

#include "sky/mixed_against_painted.hpp"

namespace gloam::sky {
namespace {

using test::layer;
using test::sun_at;

const std::vector<test::MixedError>& errors() {
    static const auto kErrors = test::errors_of_mixed(20261125, 6, 10);
    return kErrors;
}

TEST(SkyMixer, GivesTheStrengthOfThePaintedSkyWithinAPoint) {
    EXPECT_GE(test::share_within(test::strengths_of(errors()), 1.0), 0.98);
}

TEST(SkyMixer, GivesItsLuminance) {
    const auto luminance = test::gathered(errors(), [](const auto& e) -> auto& { return e.luminance; });
    EXPECT_GE(test::share_within(luminance, 0.05), 0.97);
    EXPECT_GE(test::share_within(luminance, 0.01), 0.85);
}

TEST(SkyMixer, GivesItsColour) {
    const auto colour = test::gathered(errors(), [](const auto& e) -> auto& { return e.chromaticity; });
    EXPECT_GE(test::share_within(colour, 0.005), 0.98);
}

MixedSky mixed(double sun_deg, std::vector<CloudLayer> layers, double viewer_m = 0.0) {
    const AirPalette palette(test::default_air(), viewer_m);
    MixedSky sky;
    mix(SkyPalette(palette, Angle::degrees(sun_deg)), CloudLines(std::move(layers)), 1.0, sky);
    return sky;
}

TEST(SkyMixer, OfClearAirIsThePaintedSkyWithinSevenTenthsOfAPercent) {
    const SkyPainter painter(test::default_air(), 0.0, PanoramaGrid::standard());
    for (const double sun_deg : {-8.5, -4.0, -1.0, 3.0, 9.0}) {
        const Panorama painted = painter.paint(CloudField({}), sun_at(sun_deg));
        const Panorama fast = mixed(sun_deg, {}).panorama(sun_at(sun_deg));
        for (std::size_t i = 0; i < painted.cells.size(); ++i) {
            EXPECT_NEAR(fast.cells[i].mean().y / painted.cells[i].mean().y, 1.0, 0.007)
                << sun_deg << " " << i;
        }
    }
}

TEST(SkyMixer, SharesAddUpToTheWholeDirection) {
    const MixedSky sky =
        mixed(-2.0, {test::low_layer(0.3), test::middle_layer(0.6, 150.0), test::high_layer(1.0)});
    for (std::size_t d = 0; d < MixedSky::kDirections; ++d) {
        float sum = 0.0F;
        for (std::size_t k = 0; k < sky.count; ++k) {
            sum += sky.components[k].share[d];
        }
        EXPECT_NEAR(sum, 1.0F, 1e-5F);
    }
}

TEST(SkyMixer, LeavesOutALayerBelowTheViewer) {
    EXPECT_EQ(mixed(-2.0, {test::low_layer(1.0), test::high_layer(0.5)}, 2500.0).count, 3U);
}

TEST(SkyMixer, FallsOffWithTheSquareOfTheSunsDistance) {
    const AirPalette palette(test::default_air(), 0.0);
    const SkyPalette sun(palette, Angle::degrees(-1.0));
    const CloudLines clouds({test::high_layer(0.5)});
    MixedSky near;
    MixedSky far;
    mix(sun, clouds, 1.0, near);
    mix(sun, clouds, 2.0, far);
    EXPECT_FLOAT_EQ(far.components[0].xyz[1][7] * 4.0F, near.components[0].xyz[1][7]);
}

TEST(SkyMixer, StandsOddLayers) {
    using enum CloudClass;
    const std::vector<std::vector<CloudLayer>> odd{
        {layer(kHigh, 9000.0, 10000.0, 0.5), layer(kLow, 1000.0, 2000.0, 0.5)},   // upside down
        {layer(kLow, 1000.0, 6000.0, 0.5), layer(kMiddle, 4000.0, 8000.0, 0.5)},  // overlapping
        {layer(kLow, 1000.0, 2000.0, 0.0), layer(kHigh, 9000.0, 9100.0, 1.0)},    // none, and full
        {layer(kLow, 1000.0, 2000.0, 0.5), layer(kLow, 1000.0, 2000.0, 0.5)}};    // twice the same
    for (const auto& layers : odd) {
        for (const auto& [sun_deg, viewer_m] :
             {std::pair{-12.0, 0.0}, {-3.0, 5000.0}, {0.0, -400.0}, {20.0, 1500.0}}) {
            const MixedSky sky = mixed(sun_deg, layers, viewer_m);
            for (std::size_t k = 0; k < sky.count; ++k) {
                for (std::size_t d = 0; d < MixedSky::kDirections; ++d) {
                    const float y = sky.components[k].xyz[1][d];
                    EXPECT_TRUE(std::isfinite(y) && y >= 0.0F && y < 1e6F) << sun_deg << " " << k << " " << d;
                }
            }
        }
    }
}

TEST(MixedStrength, IsThatOfItsPanorama) {
    test::RandomSkies draw(7);
    for (int i = 0; i < 10; ++i) {
        const double sun_deg = draw.even(-9.0, 10.0);
        const MixedSky sky = mixed(sun_deg, draw.three_layers());
        const ColourStrength whole = colour_strength(sky);
        const ColourStrength slow = colour_strength(sky.panorama(sun_at(sun_deg)));
        EXPECT_NEAR(whole.value, slow.value, 0.1);
        EXPECT_NEAR(whole.facing, slow.facing, 0.1);
        EXPECT_NEAR(whole.opposite, slow.opposite, 0.1);
    }
}

TEST(MixedStrength, LooksWhereThePanoramaLooks) {
    // A deck that is lit on one side of the sun only.
    CloudLayer deck = test::high_layer(1.0, 250.0);
    deck.cover[0].fill(0.0F);
    deck.cover[1].fill(0.0F);
    deck.cover[2].fill(0.0F);
    const MixedSky sky = mixed(-2.0, {deck});
    EXPECT_EQ(colour_strength(sky).best_azimuth.degrees(),
              colour_strength(sky.panorama(sun_at(-2.0))).best_azimuth.degrees());
    EXPECT_GT(colour_strength(sky).best_azimuth.degrees(), 0.0);
}

}  // namespace
}  // namespace gloam::sky
