#include "outlook/cloud_layers.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace gloam::outlook {
namespace {

constexpr double kLowBase_m = 1000.0;

PathLayers three_layers() {
    PathLayers layers;
    for (const weather::Band band : weather::kBands) {
        auto& layer = layers[weather::index_of(band)];
        const weather::UsualHeights usual = weather::kUsualHeights[weather::index_of(band)];
        layer.base_m = usual.base_m;
        layer.top_m = usual.top_m;
        layer.base_spread_m = 300.0;
        for (auto& line : layer.cover) {
            line.fill(0.2F * static_cast<float>(1 + weather::index_of(band)));
        }
    }
    return layers;
}

TEST(CloudLayers, HoldsTheThreeLayersFromLowToHigh) {
    const auto scene = sky::CloudField(cloud_layers(three_layers(), {}, {}));
    ASSERT_EQ(scene.layers().size(), 3U);
    EXPECT_EQ(scene.layers()[0].kind, sky::CloudClass::kLow);
    EXPECT_EQ(scene.layers()[1].kind, sky::CloudClass::kMiddle);
    EXPECT_EQ(scene.layers()[2].kind, sky::CloudClass::kHigh);
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(scene.cover(k, 123.0e3, 17.0e3), 0.2 * static_cast<double>(k + 1), 1e-6);
    }
}

TEST(CloudLayers, ShiftsBaseAndTopByWhatIsUnknownOfThem) {
    MemberDraw draw;
    draw.base_shift = -0.5;
    const auto scene = sky::CloudField(cloud_layers(three_layers(), draw, {}));
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_DOUBLE_EQ(scene.layers()[k].base_m, weather::kUsualHeights[k].base_m - 150.0);
        EXPECT_DOUBLE_EQ(scene.layers()[k].top_m, weather::kUsualHeights[k].top_m - 150.0);
    }
}

TEST(CloudLayers, KeepsCloudOffTheGround) {
    PathLayers layers = three_layers();
    layers[0].base_spread_m = 2.0 * kLowBase_m;
    MemberDraw draw;
    draw.base_shift = -1.0;
    const auto scene = sky::CloudField(cloud_layers(layers, draw, {}));
    EXPECT_EQ(scene.layers()[0].base_m, 100.0);
    EXPECT_EQ(scene.layers()[0].top_m, 200.0);
}

TEST(CloudLayers, MultipliesTheOpticalDepthOfEveryLayer) {
    MemberDraw draw;
    draw.depth_factor = 2.0;
    const auto usual = sky::CloudField(cloud_layers(three_layers(), {}, {}));
    const auto thick = sky::CloudField(cloud_layers(three_layers(), draw, {}));
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_DOUBLE_EQ(thick.layers()[k].optics.optical_depth,
                         2.0 * usual.layers()[k].optics.optical_depth);
    }
}

TEST(CloudLayers, RaisesCoverToThePowerDrawn) {
    MemberDraw draw;
    draw.cover_power = 0.5;
    const auto scene = sky::CloudField(cloud_layers(three_layers(), draw, {}));
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(scene.cover(k, 0.0, 0.0), std::sqrt(0.2 * static_cast<double>(k + 1)), 1e-6);
    }
}

TEST(CloudLayers, OfOneBandHoldsThatBandAlone) {
    const auto scene = sky::CloudField(cloud_layers(three_layers(), {}, weather::Band::kMiddle));
    ASSERT_EQ(scene.layers().size(), 1U);
    EXPECT_EQ(scene.layers()[0].kind, sky::CloudClass::kMiddle);
}

}  // namespace
}  // namespace gloam::outlook
