#include "sky/cloud_light.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

constexpr CloudClass kClasses[] = {CloudClass::kLow, CloudClass::kMiddle, CloudClass::kHigh};

CloudOptics with_depth(CloudClass kind, double optical_depth) {
    CloudOptics optics = cloud_optics(kind);
    optics.optical_depth = optical_depth;
    return optics;
}

TEST(LitCloud, ReturnsNoMoreLightThanItTakes) {
    double most = 0.0;
    for (const CloudClass kind : kClasses) {
        for (double depth = 0.5; depth <= 60.0; depth *= 1.1) {
            most = std::max(most, returned_from_below(with_depth(kind, depth)));
        }
    }
    std::printf("returned from below: at most %.3f of the light taken\n", most);
    EXPECT_LE(most, 1.0);
}

TEST(LitCloud, ThickCloudReturnsMoreThanThinCloud) {
    EXPECT_GT(returned_from_below(with_depth(CloudClass::kMiddle, 8.0)),
              returned_from_below(with_depth(CloudClass::kMiddle, 1.0)));
}

TEST(LitCloud, FromBelowIsBrightestTowardsTheSunAndDarkestAcross) {
    for (const CloudClass kind : kClasses) {
        const CloudOptics optics = cloud_optics(kind);
        const auto lit = [&](double cosine) { return lit_from_below(optics, {cosine, 0.2}); };
        EXPECT_GT(lit(1.0), 5.0 * lit(0.0));
        EXPECT_GT(lit(-1.0), 1.2 * lit(-0.2));
    }
}

TEST(LitCloud, FromAboveComesDownNoBrighterThanItCame) {
    constexpr int kElevations = 60;
    constexpr int kAzimuths = 48;
    constexpr double kPi = std::numbers::pi;
    for (const CloudClass kind : kClasses) {
        for (const double open : {0.0, 0.5, 1.0}) {
            double sum = 0.0;  // of factor times mu over the lower hemisphere, sun on the horizon
            for (int i = 0; i < kElevations; ++i) {
                const double mu = (i + 0.5) / kElevations;
                for (int j = 0; j < kAzimuths; ++j) {
                    const double cosine = std::sqrt(1.0 - mu * mu) * std::cos(kPi * (j + 0.5) / kAzimuths);
                    sum += lit_from_above(cloud_optics(kind), {cosine, mu}, open) * mu / kElevations * 2.0 *
                           kPi / kAzimuths;
                }
            }
            EXPECT_LT(sum / kPi, 1.0) << open;
        }
    }
}

TEST(LitCloud, FrontsNeverOutshineAWhiteWall) {
    for (const CloudClass kind : kClasses) {
        for (double cosine = -1.0; cosine <= 1.0; cosine += 0.1) {
            for (const double mu : {0.02, 0.1, 0.5, 1.0}) {
                EXPECT_LE(lit_fronts(cloud_optics(kind), {cosine, mu}), 1.0);
            }
        }
    }
}

TEST(LitCloud, FromAboveIsBrighterTheMoreGapsThereAre) {
    const CloudOptics optics = cloud_optics(CloudClass::kMiddle);
    const CloudView view{0.9, 0.2};
    EXPECT_GT(lit_from_above(optics, view, 0.5), 2.0 * lit_from_above(optics, view, 0.0));
}

TEST(LitCloud, FromAboveThinCloudPassesMoreThanThickCloud) {
    const CloudView view{0.5, 0.3};
    EXPECT_GT(lit_from_above(with_depth(CloudClass::kHigh, 0.5), view, 0.0),
              lit_from_above(with_depth(CloudClass::kHigh, 5.0), view, 0.0));
}

TEST(CloudOptics, AnyDepthThatTheForecastMayDrawKeepsTheEnergyBound) {
    for (const CloudClass kind : kClasses) {
        for (const double factor : {0.1, 0.5, 1.0, 2.0, 4.0}) {
            EXPECT_NO_THROW(cloud_optics(kind, factor));
        }
    }
}

TEST(CloudOptics, AlbedoLiesBetweenClearAndWhite) {
    EXPECT_EQ(with_depth(CloudClass::kLow, 0.0).diffuse_albedo(), 0.0);
    EXPECT_LT(with_depth(CloudClass::kLow, 1000.0).diffuse_albedo(), 1.0);
}

/// Light that the fronts of a deck take from level sunlight, per width of the deck, as the height of a wall
/// that would take as much. The sun stands on the horizon of the deck's edge; summed back from there as long
/// as the rays run inside the layer. (Farther back they come slanting from underneath.)
double wall_height_m(const CloudLayer& layer, double cover) {
    constexpr double kStep_m = 250.0;
    const CloudField field({layer});
    const ColumnTable& columns = test::tables().columns;
    const double middle_m = 0.5 * (layer.base_m + layer.top_m);
    constexpr double kLevel_rad = std::numbers::pi / 2.0;
    double edge_zenith_rad = kLevel_rad;
    for (int i = 0; i < 20; ++i) {  // true zenith angle of a sun that is seen level
        edge_zenith_rad += kLevel_rad - columns.apparent_zenith_rad(middle_m, edge_zenith_rad);
    }
    double sum_m = 0.0;
    for (double behind_m = 0.5 * kStep_m;; behind_m += kStep_m) {
        const double apparent_rad =
            columns.apparent_zenith_rad(middle_m, edge_zenith_rad + behind_m / air::kEarthRadius_m);
        const SunRay ray(middle_m, apparent_rad);
        if (ray.height_at(ray.tangent_path_m()) < layer.base_m) {
            return sum_m;
        }
        sum_m +=
            front_area(layer, cover) * field.sun_free({-behind_m, 0.0, middle_m}, apparent_rad) * kStep_m;
    }
}

// Level light in a field of cells falls as (1-f)^(s/D), so all fronts together take what a wall of the
// layer's thickness would take.
TEST(LitCloud, FrontsOfADeckTakeNoMoreThanAWallOfItsThickness) {
    for (const double cover : {0.1, 0.2, 0.3, 0.5, 0.7, 0.9}) {
        for (const CloudLayer& layer :
             {test::low_layer(cover, 0.0), test::middle_layer(cover, 0.0), test::high_layer(cover, 0.0)}) {
            EXPECT_LE(wall_height_m(layer, cover), layer.top_m - layer.base_m)
                << cover << " " << layer.base_m;
        }
    }
}

TEST(LitCloud, FrontsOfAHalfCoveredDeckTakeMostOfWhatAWallWould) {
    for (const CloudLayer& layer : {test::low_layer(0.5, 0.0), test::middle_layer(0.5, 0.0)}) {
        EXPECT_GT(wall_height_m(layer, 0.5), 0.6 * (layer.top_m - layer.base_m)) << layer.base_m;
    }
}

TEST(SunEntry, OfALevelSunIsByTheTop) {
    const SunEntry entry = sun_entry(600.0, 0.0, 7.4e6);
    EXPECT_EQ(entry.by_base, 0.0);
    EXPECT_NEAR(entry.top_m, std::sqrt(7.4e6 * 600.0), 1.0);
}

TEST(SunEntry, OfASunWellBelowTheLevelIsByTheBase) {
    const SunEntry entry = sun_entry(600.0, 0.02, 7.4e6);
    EXPECT_EQ(entry.by_base, 1.0);
    EXPECT_NEAR(entry.base_m, 300.0 / 0.02, 1.0);
}

TEST(SunEntry, OfASunWellAboveTheLevelIsCloseBy) {
    EXPECT_NEAR(sun_entry(600.0, -0.2, 7.4e6).top_m, 300.0 / 0.2, 5.0);
}

TEST(SunEntry, GoesOverTheLevelWithoutAJump) {
    const SunEntry under = sun_entry(600.0, 1e-6, 7.4e6);
    const SunEntry over = sun_entry(600.0, -1e-6, 7.4e6);
    EXPECT_NEAR(under.by_base, over.by_base, 1e-6);
    EXPECT_NEAR(under.top_m / over.top_m, 1.0, 1e-3);
}

TEST(DiffuseLeft, IsAllOfItWithoutCloud) {
    EXPECT_EQ(diffuse_left({test::middle_layer(0.0)}, 0.15).front(), 1.0);
}

TEST(DiffuseLeft, MultipliesThroughTheLayersAboveAndLeavesTheTopUndimmed) {
    const double low = diffuse_left({test::low_layer(0.5)}, 0.15).front();
    const double high = diffuse_left({test::high_layer(0.5)}, 0.15).front();
    const auto both = diffuse_left({test::low_layer(0.5), test::high_layer(0.5)}, 0.15);
    EXPECT_DOUBLE_EQ(both[0], low * high);
    EXPECT_DOUBLE_EQ(both[1], high);
    EXPECT_EQ(both[2], 1.0);
}

TEST(DiffuseLeft, IsMoreOverSnow) {
    EXPECT_GT(diffuse_left({test::low_layer(1.0)}, 0.8).front(),
              1.5 * diffuse_left({test::low_layer(1.0)}, 0.15).front());
}

TEST(DiffuseLeft, HeedsNoCloudFarFromTheViewer) {
    CloudLayer layer = test::middle_layer(1.0);
    for (auto& line : layer.cover) {
        std::fill(line.begin(), line.begin() + 60, 0.0F);  // to 150 km before the viewer
    }
    EXPECT_EQ(diffuse_left({layer}, 0.15).front(), 1.0);
}

TEST(LitCloud, FrontsOfAClosedDeckStayFinite) {
    EXPECT_TRUE(std::isfinite(front_area(test::middle_layer(1.0), 1.0)));
}

}  // namespace
}  // namespace gloam::sky
