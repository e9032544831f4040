// One photograph of broken middle cloud lit from below, with a clear slot towards the sun: luminances known
// to 35 % together, place and sun unknown. It can show whether one ordinary deck at one sun has all of its
// parts at once; the sun's depression was chosen by the slot.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string_view>

#include "reference/astro/reference_file.hpp"
#include "sky/panorama.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::ReferenceFile;

constexpr double kKnownTo = 1.35;

/// Geometric mean of the luminance of the regions whose name begins so, cd m-2.
double photographed(std::string_view name) {
    const ReferenceFile photo("dawn_red_cloud_luminance.csv");
    double sum = 0.0;
    int count = 0;
    for (std::size_t row = 0; row < photo.size(); ++row) {
        if (photo.text(row, "region").starts_with(name)) {
            sum += std::log(photo.number(row, "L_cd_m2"));
            ++count;
        }
    }
    return std::exp(sum / count);
}

/// Middle cloud of seven tenths at 4.5 km, clear beyond 40 km, the sun 1.2 deg down; 15 to 33 deg up, towards
/// the sun and 30 deg beside it.
Panorama deck() {
    PanoramaGrid grid;
    for (const double elevation_deg : {15.0, 19.0, 23.0, 26.0, 33.0}) {
        grid.elevations.push_back(Angle::degrees(elevation_deg));
    }
    grid.azimuths = {Angle::degrees(0.0), Angle::degrees(30.0)};
    return SkyPainter(test::default_air(), 0.0, grid, 60)
        .paint(CloudField({test::middle_layer(0.7, 40.0, 4500.0)}), test::sun_at(-1.2));
}

/// Least and most luminance of one of the parts of the deck from 19 deg up.
std::pair<double, double> range_of(std::size_t patch) {
    const Panorama panorama = deck();
    std::pair<double, double> range{1e9, 0.0};
    for (std::size_t row = 1; row < panorama.grid.elevations.size(); ++row) {
        for (std::size_t column = 0; column < panorama.grid.azimuths.size(); ++column) {
            const double y = panorama.cell(row, column).patches[patch].light.y;
            range = {std::min(range.first, y), std::max(range.second, y)};
        }
    }
    return range;
}

TEST(PhotographedDeck, HasTheClearSlotOfASunJustSet) {
    const PanoramaCell cell = deck().cell(0, 0);
    const double slot = cell.patches[cell.count - 1].light.y;
    std::printf("clear slot: %.0f cd m-2, photographed %.0f\n", slot, photographed("clear slot"));
    EXPECT_LT(std::abs(std::log(slot / photographed("clear slot"))), std::log(kKnownTo));
}

TEST(PhotographedDeck, HasItsUnlitCloud) {
    const auto [least, most] = range_of(1);
    std::printf("unlit cloud: %.0f to %.0f cd m-2, photographed %.0f\n", least, most, photographed("unlit"));
    EXPECT_LT(least / kKnownTo, photographed("unlit"));
    EXPECT_GT(most * kKnownTo, photographed("unlit"));
}

TEST(PhotographedDeck, HasItsLitCloudBetweenThatNearTheSunAndThatBesideIt) {
    const auto [least, most] = range_of(0);
    std::printf("lit cloud: %.0f to %.0f cd m-2, photographed %.0f, its streak %.0f\n", least, most,
                photographed("lit deck"), photographed("lit streak"));
    EXPECT_LT(least / kKnownTo, photographed("lit deck"));
    EXPECT_GT(most * kKnownTo, photographed("lit streak"));
}

}  // namespace
}  // namespace gloam::sky
