#include "sheet/cloud_strokes.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "sheet/example.hpp"

namespace gloam::sheet {
namespace {

const Arch& arch() {
    static const Arch kArch({100.0, 50.0, 1000.0, 400.0});
    return kArch;
}

double count(double cover) {
    const auto layer = example::layer(weather::Band::kHigh, 8.0e3, 11.0e3, cover);
    return static_cast<double>(cloud_strokes(layer, arch(), 1.0).size());
}

TEST(CloudStrokes, NoCoverNoStrokes) {
    EXPECT_EQ(count(0.0), 0.0);
    EXPECT_EQ(count(std::numeric_limits<double>::quiet_NaN()), 0.0);
}

TEST(CloudStrokes, ShareOfPlacesIsTheCover) {
    const double all = count(1.0);
    ASSERT_GT(all, 1000.0);
    for (const double cover : {0.05, 0.2, 0.5, 0.8, 0.95}) {
        EXPECT_NEAR(count(cover) / all, cover, 0.01) << cover;
    }
}

TEST(CloudStrokes, LieInTheLayer) {
    const auto layer = example::layer(weather::Band::kLow, 1.0e3, 2.0e3, 0.7);
    for (const Stroke& stroke : cloud_strokes(layer, arch(), 1.0)) {
        const double along_m = (stroke.from.x - arch().box().left) / arch().px_per_m() - Arch::kBehind_m;
        EXPECT_GE(along_m, -Arch::kBehind_m - 1.0);
        EXPECT_LT(stroke.from.y, arch().at(along_m, layer.base_m).y);
        EXPECT_GT(stroke.from.y, arch().at(along_m, layer.top_m).y);
    }
}

TEST(CloudStrokes, FollowTheCoverAlongThePath) {
    auto layer = example::layer(weather::Band::kMiddle, 4.0e3, 5.0e3, 0.0);
    for (std::size_t i = 70; i < 90; ++i) {  // 200 to 295 km
        layer.cover[i] = 1.0;
    }
    const auto strokes = cloud_strokes(layer, arch(), 1.0);
    ASSERT_FALSE(strokes.empty());
    for (const Stroke& stroke : strokes) {
        EXPECT_GT(stroke.from.x, arch().at(185.0e3, 0.0).x);
        EXPECT_LT(stroke.to.x, arch().at(310.0e3, 0.0).x);
    }
}

TEST(CloudStrokes, NothingAboveTheDrawing) {
    const auto layer = example::layer(weather::Band::kHigh, 13.0e3, 18.0e3, 1.0);
    for (const Stroke& stroke : cloud_strokes(layer, arch(), 1.0)) {
        EXPECT_GE(std::min(stroke.from.y, stroke.to.y), arch().box().top - 1.0);
    }
    EXPECT_TRUE(
        cloud_strokes(example::layer(weather::Band::kHigh, 15.0e3, 18.0e3, 1.0), arch(), 1.0).empty());
}

TEST(CoverAt, IsLinearBetweenPointsAndNothingBeyond) {
    auto layer = example::layer(weather::Band::kLow, 1.0e3, 2.0e3, 0.0);
    layer.cover[30] = 0.4;  // at the viewer
    layer.cover[31] = 0.8;
    EXPECT_NEAR(cover_at(layer, 0.0), 0.4, 1e-12);
    EXPECT_NEAR(cover_at(layer, 2.5e3), 0.6, 1e-12);
    EXPECT_EQ(cover_at(layer, -151.0e3), 0.0);
    EXPECT_EQ(cover_at(layer, 701.0e3), 0.0);
    layer.cover.clear();
    EXPECT_EQ(cover_at(layer, 0.0), 0.0);
}

}  // namespace
}  // namespace gloam::sheet
