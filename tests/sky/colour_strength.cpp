#include "sky/colour_strength.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "sky/event.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

constexpr Xyz kGrey{0.95047, 1.0, 1.08883};
constexpr Xyz kRed{1.25, 1.0, 0.45};  // a warm red of the same luminance

/// A sky of one colour with `red_columns` columns of another, from 30 deg to the right of the sun on.
Panorama sky_of(const Xyz& ground, const Xyz& spot, std::size_t red_columns, double cd_m2 = 100.0) {
    Panorama panorama{PanoramaGrid::standard(), test::sun_at(-1.0), {}};
    const std::size_t columns = panorama.grid.azimuths.size();
    panorama.cells.resize(panorama.grid.elevations.size() * columns);
    for (std::size_t i = 0; i < panorama.cells.size(); ++i) {
        const std::size_t from_start = (i % columns + columns - 13) % columns;
        panorama.cells[i].add({1.0, (from_start < red_columns ? spot : ground) * cd_m2});
    }
    return panorama;
}

Xyz between(const Xyz& a, const Xyz& b, double share) {
    return a * (1.0 - share) + b * share;
}

TEST(ColourStrength, OfAGreySkyIsNothing) {
    const ColourStrength grey = colour_strength(sky_of(kGrey, kGrey, 0));
    EXPECT_EQ(grey.value, 0.0);
    EXPECT_EQ(grey.facing, 0.0);
    EXPECT_EQ(grey.opposite, 0.0);
}

TEST(ColourStrength, StaysWithinItsScale) {
    const double red = colour_strength(sky_of(kRed, kRed, 0)).value;
    EXPECT_GT(red, 50.0);
    EXPECT_LE(red, 100.0);
    EXPECT_LE(colour_strength(sky_of({3.0, 1.0, 0.01}, kRed, 5, 1e5)).value, 100.0);
}

TEST(ColourStrength, GrowsWithChroma) {
    double before = 0.0;
    for (double share = 0.0; share <= 1.0; share += 0.05) {
        const Xyz colour = between(kGrey, kRed, share);
        const double here = colour_strength(sky_of(colour, colour, 0)).value;
        ASSERT_GE(here, before) << share;
        before = here;
    }
}

TEST(ColourStrength, GrowsWithColouredArea) {
    double before = 0.0;
    for (std::size_t columns = 1; columns <= 24; ++columns) {
        const double here = colour_strength(sky_of(kGrey, kRed, columns)).value;
        ASSERT_GT(here, before) << columns;
        before = here;
    }
}

TEST(ColourStrength, FadesWithTheLight) {
    double before = 100.0;
    for (double cd_m2 = 1000.0; cd_m2 > 1e-4; cd_m2 /= 2.0) {
        const double here = colour_strength(sky_of(kGrey, kRed, 6, cd_m2)).value;
        ASSERT_LT(here, before) << cd_m2;
        before = here;
    }
}

TEST(ColourStrength, BlueCountsATenthOfRed) {
    const Xyz blue = between(kGrey, {0.7, 1.0, 2.2}, 1.0);
    const double of_blue = colour_strength(sky_of(kGrey, blue, 12)).value;
    EXPECT_GT(of_blue, 0.0);
    EXPECT_LT(of_blue, 0.25 * colour_strength(sky_of(kGrey, kRed, 12)).value);
}

TEST(ColourStrength, PointsAtTheColour) {
    const ColourStrength strength = colour_strength(sky_of(kGrey, kRed, 3));  // 30 to 60 deg right of the sun
    EXPECT_NEAR(strength.best_azimuth.degrees(), 45.0, 15.1);
    EXPECT_GT(strength.facing, strength.opposite);
    EXPECT_EQ(strength.facing, strength.value);
}

TEST(ColourStrength, WeighsPartsAndNotTheirMixture) {
    Panorama parts = sky_of(kGrey, kGrey, 0);
    for (PanoramaCell& cell : parts.cells) {
        cell = {};
        cell.add({0.3, kRed * 100.0});
        cell.add({0.7, kGrey * 100.0});
    }
    const Xyz mixture = between(kGrey, kRed, 0.3);
    EXPECT_GT(colour_strength(parts).value, colour_strength(sky_of(mixture, mixture, 0)).value);
}

/// Largest difference between painters of few and of many steps over a dusk.
double worst_of_few_steps(const std::vector<CloudLayer>& layers) {
    const SkyPainter few(test::default_air(), 0.0, PanoramaGrid::standard(), 24);
    const SkyPainter many(test::default_air(), 0.0, PanoramaGrid::standard(), 90);
    const CloudField clouds(layers);
    double worst = 0.0;
    for (double elevation_deg = -6.0; elevation_deg <= 3.0; elevation_deg += 0.5) {
        const SunState sun = test::sun_at(elevation_deg);
        worst = std::max(worst, std::abs(colour_strength(few.paint(clouds, sun)).value -
                                         colour_strength(many.paint(clouds, sun)).value));
    }
    return worst;
}

TEST(ColourStrength, NeedsNoMoreThan24StepsARay) {
    double worst = 0.0;
    for (const auto& layers :
         std::vector<std::vector<CloudLayer>>{{},
                                              {test::high_layer(1.0, 250.0)},
                                              {test::middle_layer(0.7, 60.0)},
                                              {test::low_layer(0.3), test::high_layer(0.5)}}) {
        worst = std::max(worst, worst_of_few_steps(layers));
    }
    std::printf("colour strength, 24 steps against 90: max difference %.2f points\n", worst);
    EXPECT_LT(worst, 1.0);
}

}  // namespace
}  // namespace gloam::sky
