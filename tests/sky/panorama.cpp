#include "sky/panorama.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::default_air;
using test::high_layer;
using test::low_layer;
using test::middle_layer;
using test::sun_at;

std::vector<CloudLayer> three_layers() {
    return {low_layer(0.3), middle_layer(0.5, 120.0), high_layer(0.8, 250.0)};
}

Panorama paint(double viewer_height_m, std::vector<CloudLayer> layers, const SunState& sun) {
    return SkyPainter(default_air(), viewer_height_m, PanoramaGrid::standard())
        .paint(CloudField(std::move(layers)), sun);
}

bool is_light(const Xyz& light) {
    return std::isfinite(light.x) && std::isfinite(light.y) && std::isfinite(light.z) && light.x >= 0.0 &&
           light.y >= 0.0 && light.z >= 0.0;
}

double share_of(const PanoramaCell& cell) {
    double sum = 0.0;
    for (std::size_t i = 0; i < cell.count; ++i) {
        sum += cell.patches[i].share;
    }
    return sum;
}

/// Height of the viewer: at the sea, inside the low layer, above it, above the middle layer, inside the
/// highest.
class ViewerAt : public ::testing::TestWithParam<double> {};

TEST_P(ViewerAt, EveryDirectionIsFullAndItsLightIsLight) {
    const SkyPainter painter(default_air(), GetParam(), PanoramaGrid::standard());
    const CloudField clouds(three_layers());
    for (double elevation_deg = -9.0; elevation_deg <= 10.0; elevation_deg += 1.0) {
        for (const PanoramaCell& cell : painter.paint(clouds, sun_at(elevation_deg)).cells) {
            ASSERT_NEAR(share_of(cell), 1.0, 1e-12) << elevation_deg;
            for (std::size_t i = 0; i < cell.count; ++i) {
                ASSERT_TRUE(is_light(cell.patches[i].light)) << elevation_deg;
            }
        }
    }
}

INSTANTIATE_TEST_SUITE_P(, ViewerAt, ::testing::Values(0.0, 1500.0, 3000.0, 5000.0, 9500.0),
                         [](const auto& height) {
                             return std::to_string(static_cast<int>(height.param)) + "Metres";
                         });

TEST(Panorama, DoesNotShowCloudBelowTheViewer) {
    const Panorama above = paint(3000.0, {low_layer(1.0)}, sun_at(2.0));
    for (const PanoramaCell& cell : above.cells) {
        EXPECT_EQ(cell.count, 1U);
    }
}

TEST(Panorama, WithoutCloudIsTheClearSky) {
    const Panorama panorama = paint(0.0, {}, sun_at(-2.0));
    const PanoramaGrid& grid = panorama.grid;
    for (std::size_t r = 0; r < grid.elevations.size(); ++r) {
        for (std::size_t a = 0; a < grid.azimuths.size(); ++a) {
            const Xyz clear = default_air().bands->xyz(clear_sky_radiance(
                default_air(), 0.0, Angle::degrees(-2.0), grid.elevations[r], grid.azimuths[a], 24));
            EXPECT_NEAR(panorama.cell(r, a).mean().y / clear.y, 1.0, 1e-4);
        }
    }
}

TEST(Panorama, SaysWhichLayerEachPartBelongsTo) {
    const PanoramaCell cell = paint(0.0, {low_layer(0.0), high_layer(0.5)}, sun_at(1.0)).cell(4, 11);
    ASSERT_EQ(cell.count, 3U) << "lit, unlit, clear";
    EXPECT_EQ(cell.patches[0].layer, 1U);
    EXPECT_TRUE(cell.patches[0].lit);
    EXPECT_EQ(cell.patches[1].layer, 1U);
    EXPECT_FALSE(cell.patches[1].lit);
    EXPECT_EQ(cell.patches[2].layer, Patch::kClearAir);
}

TEST(Panorama, CloudOfNoCoverChangesNothing) {
    const Panorama clear = paint(0.0, {}, sun_at(-1.0));
    const Panorama empty = paint(0.0, {low_layer(0.0), high_layer(0.0)}, sun_at(-1.0));
    for (std::size_t i = 0; i < clear.cells.size(); ++i) {
        EXPECT_DOUBLE_EQ(clear.cells[i].mean().y, empty.cells[i].mean().y);
    }
}

TEST(Panorama, IsTheSameInEveryRun) {
    const Panorama once = paint(0.0, three_layers(), sun_at(-1.0));
    const Panorama again = paint(0.0, three_layers(), sun_at(-1.0));
    for (std::size_t i = 0; i < once.cells.size(); ++i) {
        EXPECT_EQ(once.cells[i].mean().x, again.cells[i].mean().x);
    }
}

TEST(Panorama, FollowsTheSquareOfTheSunsDistance) {
    const Panorama near = paint(0.0, three_layers(), {Angle::degrees(-1.0), 1.0});
    const Panorama far = paint(0.0, three_layers(), {Angle::degrees(-1.0), 2.0});
    for (std::size_t i = 0; i < near.cells.size(); ++i) {
        EXPECT_NEAR(far.cells[i].mean().y / near.cells[i].mean().y, 0.25, 1e-12);
    }
}

CloudLayer slanting(CloudLayer layer) {
    for (std::size_t line = 0; line < layer.cover.size(); ++line) {
        for (float& cover : layer.cover[line]) {
            cover *= 0.2F + 0.2F * static_cast<float>(line);
        }
    }
    return layer;
}

CloudLayer mirrored(CloudLayer layer) {
    std::reverse(layer.cover.begin(), layer.cover.end());
    return layer;
}

TEST(Panorama, OfMirroredCloudIsMirrored) {
    const CloudLayer layer = slanting(high_layer(1.0, 200.0));
    const Panorama right = paint(0.0, {layer}, sun_at(-1.5));
    const Panorama left = paint(0.0, {mirrored(layer)}, sun_at(-1.5));
    const std::size_t count = right.grid.azimuths.size();
    for (std::size_t r = 0; r < right.grid.elevations.size(); ++r) {
        for (std::size_t a = 0; a + 1 < count; ++a) {  // the last azimuth is 180 deg, its own mirror
            ASSERT_NEAR(right.grid.azimuths[a].degrees(), -right.grid.azimuths[count - 2 - a].degrees(),
                        1e-9);
            EXPECT_NEAR(right.cell(r, a).mean().y / left.cell(r, count - 2 - a).mean().y, 1.0, 1e-6);
        }
    }
}

TEST(Panorama, CloudToTheRightIsSeenToTheRight) {
    CloudLayer layer = high_layer(0.0);
    layer.cover.back().fill(1.0F);  // 80 km to the right of the path
    const Panorama panorama = paint(0.0, {layer}, sun_at(-1.0));
    EXPECT_EQ(panorama.grid.azimuths[17].degrees(), 90.0);
    EXPECT_GT(panorama.cell(1, 17).count, 1U);
    EXPECT_EQ(panorama.grid.azimuths[5].degrees(), -90.0);
    EXPECT_EQ(panorama.cell(1, 5).count, 1U);
}

// The ray starts above the layer; else a closed deck would shut out the sun that shines on it.
TEST(Panorama, ClosedHighCanopyPassesTheSunThatStandsAboveIt) {
    const PanoramaCell cell = paint(0.0, {high_layer(1.0)}, sun_at(3.0)).cell(4, 11);
    EXPECT_GT(cell.patches[0].light.y, 1.1 * cell.patches[1].light.y);
}

TEST(Panorama, CloudThatIsHardlyThereShowsTheSkyBehindIt) {
    CloudLayer veil = high_layer(0.5);
    veil.optics.optical_depth = 1e-6;
    for (const PanoramaCell& cell : paint(0.0, {veil}, sun_at(-4.5)).cells) {
        ASSERT_EQ(cell.count, 3U) << "lit, unlit, clear";
        EXPECT_NEAR(cell.patches[1].light.y / cell.patches[2].light.y, 1.0, 1e-3);
    }
}

TEST(Panorama, HighCloudIsRedderThanTheSkyWhenItIsLitFromBelow) {
    const Panorama panorama = paint(0.0, {high_layer(0.5, 250.0)}, sun_at(-2.0));
    const PanoramaCell& cell = panorama.cell(3, 11);  // 15 deg up, towards the sun
    ASSERT_EQ(cell.count, 3U) << "lit, unlit, clear";
    const double lit = chromaticity(cell.patches[0].light).x;
    EXPECT_GT(lit, chromaticity(cell.patches[1].light).x + 0.03);
    EXPECT_GT(lit, chromaticity(cell.patches[2].light).x + 0.03);
}

TEST(Panorama, LowOvercastIsDarkerThanTheClearSkyTowardsTheSun) {
    const double overcast = paint(0.0, {low_layer(1.0)}, sun_at(0.0)).cell(3, 11).mean().y;
    const double clear = paint(0.0, {}, sun_at(0.0)).cell(3, 11).mean().y;
    EXPECT_LT(overcast, 0.5 * clear);
}

}  // namespace
}  // namespace gloam::sky
