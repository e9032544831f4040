#include "sheet/time_strip.hpp"

#include <gmock/gmock.h>

#include <string>

#include "sheet/picture.hpp"

namespace gloam::sheet {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

constexpr sky::Xyz kDaylight{0.95047, 1.0, 1.08883};
constexpr sky::Xyz kRed{1.6, 1.0, 0.3};
constexpr Instant kFirst{std::chrono::seconds{1738128720}};  // 2025-01-29 05:32 UTC

/// A dawn of 100 minutes from -9 deg: red in front, grey behind, its light doubling every 7 minutes.
std::vector<SkyMinute> dawn() {
    std::vector<SkyMinute> minutes;
    for (int i = 0; i < 100; ++i) {
        const double cd_m2 = 0.1 * std::exp2(i / 7.0);
        minutes.push_back({kFirst + std::chrono::minutes(i), Azimuth::degrees(112.0),
                           Angle::degrees(-9.0 + 0.16 * i), kRed * (2.0 * cd_m2), kDaylight * cd_m2});
    }
    return minutes;
}

geo::Zone rome() {
    return geo::Zone::named("Europe/Rome").value();
}

std::vector<std::byte> strip(DrawingFormat format, double width_px = 900.0) {
    return draw_time_strip(dawn(), {"Dawn, a synthetic one", "made by hand"}, rome(), format, width_px)
        .value();
}

/// Mean brightness of a picture's column through the band, 0..1.
double brightness(const Picture& picture, double share) {
    const auto x = static_cast<std::size_t>(share * picture.width);
    const auto y = static_cast<std::size_t>(picture.height / 3);
    const std::uint32_t pixel = picture.pixels[y * static_cast<std::size_t>(picture.width) + x];
    return ((pixel >> 16U & 0xFFU) + (pixel >> 8U & 0xFFU) + (pixel & 0xFFU)) / (3.0 * 255.0);
}

TEST(TimeStrip, IsDarkByNightAndLightByDay) {
    const Picture picture = decode_png(strip(DrawingFormat::kPng));
    EXPECT_LT(brightness(picture, 0.05), 0.35);
    EXPECT_GT(brightness(picture, 0.95), 0.6);
}

TEST(TimeStrip, GrowsLighterWithTheSun) {
    double before = -100.0;
    for (const SkyMinute& minute : dawn()) {
        const double shown = ev_of_luminance(minute.opposite.y) - strip_exposure(minute);
        EXPECT_GT(shown, before);
        before = shown;
    }
}

TEST(TimeStrip, IsSoundXmlAndTheSameInEveryRun) {
    const auto svg = strip(DrawingFormat::kSvg);
    EXPECT_TRUE(is_balanced_xml(as_text(svg)));
    EXPECT_EQ(svg, strip(DrawingFormat::kSvg));
}

TEST(TimeStrip, IsAsWideAsAsked) {
    EXPECT_EQ(decode_png(strip(DrawingFormat::kPng, 390.0)).width, 390);
}

TEST(TimeStrip, OfOneMinuteIsDrawn) {
    const auto minutes = dawn();
    const auto bytes = draw_time_strip(std::span(minutes).first(1), {"t", "s"}, rome(), DrawingFormat::kPng);
    EXPECT_TRUE(bytes);
}

TEST(TimeStrip, WithoutMinutesIsRefused) {
    const auto bytes = draw_time_strip({}, {"t", "s"}, rome(), DrawingFormat::kPng);
    ASSERT_FALSE(bytes);
    EXPECT_THAT(bytes.error().hint, HasSubstr("forecast"));
}

class StripWidthThatIsNone : public ::testing::TestWithParam<double> {};

TEST_P(StripWidthThatIsNone, IsRefused) {
    const auto minutes = dawn();
    const auto bytes = draw_time_strip(minutes, {"t", "s"}, rome(), DrawingFormat::kPng, GetParam());
    ASSERT_FALSE(bytes);
    EXPECT_THAT(bytes.error().where, HasSubstr("--width"));
}

INSTANTIATE_TEST_SUITE_P(, StripWidthThatIsNone, ::testing::Values(0.0, -5.0, 1.0, 1e9, std::nan("")));

}  // namespace
}  // namespace gloam::sheet
