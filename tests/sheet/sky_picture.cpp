#include "sheet/sky_picture.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <string>

#include "sheet/drawing.hpp"
#include "sheet/picture.hpp"
#include "sheet/seen_sky.hpp"
#include "sheet/sky_png.hpp"

namespace gloam::sheet {
namespace {

using example::seen_sky;
using test::high_layer;
using test::low_layer;
using test::middle_layer;
using ::testing::HasSubstr;

SkyView small_strip() {
    return SkyView::strip(180).value();  // two degrees a pixel, the level 30 pixels down from the top's 37.5
}

const sky::Xyz& pixel(const LightPicture& picture, int x, int y) {
    return picture.pixels[static_cast<std::size_t>(y * picture.width_px + x)];
}

std::vector<std::byte> png_of(const LightPicture& picture) {
    return to_png(displayed(picture, 9.0), PngDepth::k8, "synthetic").value();
}

TEST(SkyPicture, IsTheSameInEveryRun) {
    const auto seen = seen_sky({middle_layer(0.4), high_layer(0.5)}, -1.5);
    EXPECT_EQ(png_of(draw_sky(seen, 3, small_strip())), png_of(draw_sky(seen, 3, small_strip())));
}

TEST(SkyPicture, DrawsOtherCloudsWithAnotherSeed) {
    const auto seen = seen_sky({middle_layer(0.4)}, -1.5);
    EXPECT_NE(png_of(draw_sky(seen, 3, small_strip())), png_of(draw_sky(seen, 4, small_strip())));
}

TEST(SkyPicture, OfAClearSkyIsItsPanorama) {
    const auto seen = seen_sky({}, -2.0);
    const SkyView view = small_strip();
    const LightPicture picture = draw_sky(seen, 1, view);
    const SkyLights lights(seen.panorama, 0);
    for (int x = 0; x < 180; x += 7) {
        const double light = lights.at(view.direction_at(x + 0.5, 10.5)).mean().y;
        EXPECT_NEAR(pixel(picture, x, 10).y / light, 1.0, 1e-9);
    }
}

TEST(SkyPicture, HoldsOnlyLight) {
    for (const double sun_deg : {-9.0, -1.0, 0.0, 3.0, 10.0}) {
        const auto seen =
            seen_sky({low_layer(0.3), middle_layer(0.5, 120.0), high_layer(0.8, 250.0)}, sun_deg);
        for (const sky::Xyz& light : draw_sky(seen, 1, small_strip()).pixels) {
            ASSERT_TRUE(std::isfinite(light.x + light.y + light.z)) << sun_deg;
            ASSERT_GT(light.y, 0.0) << sun_deg;
        }
    }
}

TEST(SkyPicture, ShowsWaterDarkerThanTheSkyAboveIt) {
    const LightPicture picture = draw_sky(seen_sky({}, -2.0), 1, small_strip());
    for (int x = 0; x < 180; ++x) {
        EXPECT_LT(pixel(picture, x, 44).y, pixel(picture, x, 34).y) << x;
    }
}

/// A small telephoto view at the sun's height.
SkyView towards_sun() {
    return SkyView::lens(200.0, Angle{}, 300).value();
}

double brightest(const LightPicture& picture) {
    double most = 0.0;
    for (int y = 0; y < picture.height_px * 2 / 3; ++y) {
        for (int x = 0; x < picture.width_px; ++x) {
            most = std::max(most, pixel(picture, x, y).y);
        }
    }
    return most;
}

TEST(SkyPicture, ShowsTheDiscOfASunThatIsUpAndNoneOfOneThatHasSet) {
    const auto up = seen_sky({}, 1.0);
    EXPECT_NEAR(brightest(draw_sky(up, 1, towards_sun())) / up.sun_disc.y, 1.0, 0.01);
    const auto set = seen_sky({}, -1.5);
    EXPECT_LT(brightest(draw_sky(set, 1, towards_sun())), 1e4);
}

TEST(SkyPicture, HidesTheDiscBehindThickCloud) {
    const auto seen = seen_sky({low_layer(1.0)}, 1.0);
    EXPECT_LT(brightest(draw_sky(seen, 1, towards_sun())), 1e-3 * seen.sun_disc.y);
}

TEST(SkyPng, HoldsThePictureAndTheWordsAboutIt) {
    DisplayPicture picture{2, 1, {{0.0, 0.5, 1.0}, {1.0, 1.0, 1.0}}};
    const auto bytes = to_png(picture, PngDepth::k8, "an illustration").value();
    const Picture read = decode_png(bytes);
    ASSERT_EQ(read.width, 2);
    ASSERT_EQ(read.height, 1);
    EXPECT_EQ(read.pixels[0] >> 16U & 0xFFU, 0U);
    EXPECT_NEAR(read.pixels[0] >> 8U & 0xFFU, 127.5, 1.5);
    EXPECT_EQ(read.pixels[0] & 0xFFU, 255U);
    EXPECT_THAT(as_text(bytes), HasSubstr("an illustration"));
}

TEST(SkyPng, OfASmoothSkyBandsLessThanWholeStepsWould) {
    DisplayPicture slope{4096, 1, {}};
    for (int x = 0; x < 4096; ++x) {
        const double value = (100.0 + x / 4096.0) / 255.0;
        slope.pixels.push_back({value, value, value});
    }
    const Picture read = decode_png(to_png(slope, PngDepth::k8, "synthetic").value());
    double first_quarter = 0.0;
    for (std::size_t x = 0; x < 1024; ++x) {
        first_quarter += static_cast<double>(read.pixels[x] & 0xFFU) / 1024.0;
    }
    EXPECT_GT(first_quarter, 100.0);
    EXPECT_LT(first_quarter, 100.3);
}

TEST(Drawing, HoldsAPicturePixelOnPixel) {
    Drawing drawing(DrawingFormat::kPng, 4, 3, {1.0, 1.0, 1.0});
    drawing.put(DisplayPicture{2, 1, {{1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}}}, {1.0, 2.0});
    const Picture read = decode_png(drawing.finish().value());
    EXPECT_EQ(read.pixels[8] & 0xFFFFFFU, 0xFFFFFFU);
    EXPECT_EQ(read.pixels[9] & 0xFFFFFFU, 0xFF0000U);
    EXPECT_EQ(read.pixels[10] & 0xFFFFFFU, 0x0000FFU);
    EXPECT_EQ(read.pixels[11] & 0xFFFFFFU, 0xFFFFFFU);
}

// ISO/IEC 15948: octet 24 is the bit depth.
TEST(SkyPng, HasSixteenBitsIfAsked) {
    const DisplayPicture picture{1, 1, {{0.25, 0.5, 0.75}}};
    EXPECT_EQ(to_png(picture, PngDepth::k16, "synthetic").value()[24], std::byte{16});
    EXPECT_EQ(to_png(picture, PngDepth::k8, "synthetic").value()[24], std::byte{8});
}

}  // namespace
}  // namespace gloam::sheet
