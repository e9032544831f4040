#include "sky/cloud_field.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "base/check.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::high_layer;
using test::low_layer;
using test::middle_layer;
using Grid = geo::LightPathGrid;

constexpr double kDegree_rad = std::numbers::pi / 180.0;
constexpr unsigned kSeed = 20240602;

/// Cover that is read back as what the sample points were given: along + aside, scaled to 0..1.
CloudLayer sloping_layer() {
    CloudLayer layer = high_layer(0.0);
    for (std::size_t line = 0; line < Grid::kLines; ++line) {
        for (std::size_t i = 0; i < Grid::kPoints; ++i) {
            layer.cover[line][i] =
                static_cast<float>(static_cast<double>(i) / 400.0 + static_cast<double>(line) / 10.0);
        }
    }
    return layer;
}

TEST(Cover, IsLinearBetweenSamplePoints) {
    const CloudField field({sloping_layer()});
    const double at_point = field.cover(0, 0.0, 0.0);
    EXPECT_NEAR(at_point, 30.0 / 400.0 + 2.0 / 10.0, 1e-6);
    EXPECT_NEAR(field.cover(0, 2.5e3, 0.0) - at_point, 0.5 / 400.0, 1e-6);
    EXPECT_NEAR(field.cover(0, 0.0, 20.0e3) - at_point, 0.5 / 10.0, 1e-6);
}

TEST(Cover, BeyondTheEndsStaysWhatItWas) {
    const CloudField field({sloping_layer()});
    EXPECT_EQ(field.cover(0, -900.0e3, 0.0), field.cover(0, -150.0e3, 0.0));
    EXPECT_EQ(field.cover(0, 2000.0e3, 0.0), field.cover(0, 700.0e3, 0.0));
    EXPECT_EQ(field.cover(0, 0.0, 500.0e3), field.cover(0, 0.0, 80.0e3));
}

TEST(CloudField, RefusesALayerWithoutThickness) {
    CloudLayer layer = high_layer(0.5);
    layer.top_m = layer.base_m;
    EXPECT_THROW(CloudField({layer}), InternalError);
}

TEST(SunFree, WithoutCloudIsCertain) {
    EXPECT_EQ(CloudField({}).sun_free({0.0, 0.0, 4000.0}, 90.0 * kDegree_rad), 1.0);
    EXPECT_EQ(CloudField({low_layer(0.0), high_layer(0.0)}).sun_free({0.0, 0.0, 500.0}, 1.5), 1.0);
}

TEST(SunFree, UnderAClosedDeckIsHopeless) {
    EXPECT_LT(CloudField({low_layer(1.0)}).sun_free({0.0, 0.0, 0.0}, 85.0 * kDegree_rad), 1e-3);
}

TEST(SunFree, AboveALayerDoesNotSeeItWhileTheSunIsUp) {
    EXPECT_EQ(CloudField({low_layer(1.0)}).sun_free({0.0, 0.0, 2010.0}, 89.9 * kDegree_rad), 1.0);
}

TEST(SunFree, OneCrossingOfACellCountsOnce) {
    // The sun 30 deg up: the passage is shorter than a cell, so the ray is free with the share of clear sky.
    const CloudField field({middle_layer(0.3)});
    EXPECT_NEAR(field.sun_free({0.0, 0.0, 0.0}, 60.0 * kDegree_rad), 0.7, 1e-6);
}

TEST(SunFree, LayersBlockIndependently) {
    const PathPoint ground{};
    const double zenith_rad = 60.0 * kDegree_rad;
    const double both = CloudField({low_layer(0.2), high_layer(0.5)}).sun_free(ground, zenith_rad);
    EXPECT_NEAR(both,
                CloudField({low_layer(0.2)}).sun_free(ground, zenith_rad) *
                    CloudField({high_layer(0.5)}).sun_free(ground, zenith_rad),
                1e-12);
}

TEST(SunFree, LowCloudFarUpSunDoesNotReachHighCloudBeforeMinusThree) {
    CloudLayer far_low = low_layer(1.0);
    for (auto& line : far_low.cover) {
        std::fill(line.begin(), line.begin() + 42, 0.0F);  // clear to 60 km
    }
    const CloudField field({far_low});
    // Apparent depressions of the sun at 9 km for true -2 and -3 deg; the ray's lowest points are 6.4 and 3.2
    // km.
    EXPECT_EQ(field.sun_free({0.0, 0.0, 9000.0}, 91.55 * kDegree_rad), 1.0);
    EXPECT_EQ(field.sun_free({0.0, 0.0, 9000.0}, 92.30 * kDegree_rad), 1.0);
}

TEST(SunFree, IsDecidedByTheLineThatThePointStandsOn) {
    CloudLayer right_only = middle_layer(0.0);
    right_only.cover.back().fill(1.0F);
    const CloudField field({right_only});
    EXPECT_LT(field.sun_free({0.0, 80.0e3, 0.0}, 60.0 * kDegree_rad), 1e-3);
    EXPECT_EQ(field.sun_free({0.0, -80.0e3, 0.0}, 60.0 * kDegree_rad), 1.0);
}

TEST(Passages, MultiplyToTheWhole) {
    const CloudField field({low_layer(0.1), middle_layer(0.3), high_layer(0.6, 200.0)});
    const PathPoint from{-20.0e3, 15.0e3, 8990.0};
    const double zenith_rad = 91.8 * kDegree_rad;
    double ln_free = 0.0;
    for (const CloudPassage& passage : field.passages(from, zenith_rad)) {
        EXPECT_LT(passage.from_m, passage.to_m);
        EXPECT_LE(passage.ln_free, 0.0);
        ln_free += passage.ln_free;
    }
    EXPECT_DOUBLE_EQ(std::exp(ln_free), field.sun_free(from, zenith_rad));
}

TEST(Passages, LieWhereTheRayIsInsideTheLayer) {
    const CloudField field({middle_layer(0.5)});
    const PathPoint from{0.0, 0.0, 8990.0};
    const double zenith_rad = 92.2 * kDegree_rad;
    const SunRay ray(from.height_m, zenith_rad);
    const auto passages = field.passages(from, zenith_rad);
    ASSERT_EQ(passages.size(), 2U) << "down through the layer and up again";
    for (const CloudPassage& passage : passages) {
        const double middle_m = 0.5 * (passage.from_m + passage.to_m) / ray.cos_depression;
        EXPECT_GT(ray.height_at(middle_m), 4000.0);
        EXPECT_LT(ray.height_at(middle_m), 4600.0);
    }
}

/// Random skies, points and suns for the properties below.
class RandomSky {
  public:
    CloudLayer random_layer(CloudClass kind, double base_m, double top_m) {
        CloudLayer layer = test::layer(kind, base_m, top_m, 0.0);
        for (auto& line : layer.cover) {
            for (float& cover : line) {
                cover = static_cast<float>(std::clamp(uniform(-0.3, 1.3), 0.0, 1.0));
            }
        }
        return layer;
    }
    std::vector<CloudLayer> layers() {
        return {random_layer(CloudClass::kLow, 1000.0, 2000.0),
                random_layer(CloudClass::kMiddle, 4000.0, 4600.0),
                random_layer(CloudClass::kHigh, 9000.0, 10000.0)};
    }
    PathPoint point() { return {uniform(-120e3, 300e3), uniform(-90e3, 90e3), uniform(0.0, 12e3)}; }
    double zenith_rad() { return uniform(80.0, 93.0) * kDegree_rad; }
    double uniform(double from, double to) {
        return std::uniform_real_distribution<double>(from, to)(random_);
    }
    std::size_t index(std::size_t count) { return random_() % count; }

  private:
    std::mt19937 random_{kSeed};
};

TEST(SunFree, IsAProbabilityUnderAnySky) {
    RandomSky sky;
    for (int i = 0; i < 2000; ++i) {
        const double free = CloudField(sky.layers()).sun_free(sky.point(), sky.zenith_rad());
        ASSERT_GE(free, 0.0) << "seed " << kSeed;
        ASSERT_LE(free, 1.0) << "seed " << kSeed;
    }
}

TEST(SunFree, NeverRisesWhenCloudIsAddedAnywhere) {
    RandomSky sky;
    for (int i = 0; i < 2000; ++i) {
        auto layers = sky.layers();
        const PathPoint from = sky.point();
        const double zenith_rad = sky.zenith_rad();
        const double before = CloudField(layers).sun_free(from, zenith_rad);
        float& cover = layers[sky.index(3)].cover[sky.index(Grid::kLines)][sky.index(Grid::kPoints)];
        cover += static_cast<float>(sky.uniform(0.0, 1.0)) * (1.0F - cover);
        const double after = CloudField(layers).sun_free(from, zenith_rad);
        ASSERT_LE(after, before * (1.0 + 1e-9)) << "seed " << kSeed << ", sky " << i;
    }
}

TEST(SunFree, FallsAsUniformCoverGrows) {
    for (const double height_m : {0.0, 3990.0, 8990.0}) {
        double before = 1.0;
        for (double cover = 0.05; cover <= 1.0; cover += 0.05) {
            const CloudField field({middle_layer(cover)});
            const double free = field.sun_free({0.0, 0.0, height_m}, 91.9 * kDegree_rad);
            ASSERT_LE(free, before) << height_m << " " << cover;
            before = free;
        }
    }
}

}  // namespace
}  // namespace gloam::sky
