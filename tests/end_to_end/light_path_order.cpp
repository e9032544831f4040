// More cloud on the light path never lets more sun through: from synthetic GRIB bytes to the probability that
// a ray is free. One level a layer, so that cloud is added where cloud may be and no layer moves up or down:
// a layer has one base and top along the whole path, the mean over its cloud.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "outlook/cloud_layers.hpp"
#include "support/equator_dawn.hpp"
#include "weather/light_path.hpp"

namespace gloam {
namespace {

constexpr int kColumns = 49;
const std::vector<double> kLevels_hpa{850, 600, 300};

/// Cover by level and by longitude of the grid, percent.
using Covers = std::array<std::array<int, kColumns>, 3>;

sky::CloudField clouds_of(const Covers& covers) {
    const auto request = synthetic::equator_dawn();
    const auto cover = [&](double along_km, double pressure_pa, int) {
        const auto level = static_cast<std::size_t>(std::ranges::find(kLevels_hpa, pressure_pa / 100.0) -
                                                    kLevels_hpa.begin());
        const auto column = static_cast<std::size_t>(std::lround(2.0 * (along_km / 111.2 + 8.0)));
        return covers[level][column] / 100.0;
    };
    const auto layers = synthetic::layers_in(synthetic::dawn_file({.levels_hpa = kLevels_hpa}, cover));
    const auto path =
        sample_light_path(layers, 0, request.observer.at, Azimuth::degrees(90), synthetic::at_sunrise(), {});
    return sky::CloudField(outlook::cloud_layers(path.value(), {}, {}));
}

/// Probabilities that rays from many points of the path to a sun about the horizon are free.
std::vector<double> free_shares(const sky::CloudField& clouds) {
    std::vector<double> all;
    for (const double along_m : {-100.0e3, 0.0, 60.0e3, 200.0e3}) {
        for (const double height_m : {500.0, 1200.0, 3000.0, 5000.0, 8500.0, 11000.0}) {
            for (const double apparent_deg : {80.0, 89.0, 90.0, 90.5, 91.0, 91.5}) {
                all.push_back(
                    clouds.sun_free({along_m, 20.0e3, height_m}, apparent_deg * std::numbers::pi / 180.0));
            }
        }
    }
    return all;
}

TEST(SyntheticLightPath, MoreCloudNeverLetsMoreSunThrough) {
    std::mt19937 random(20250320);  // fixed: the same skies in every run
    for (int sky = 0; sky < 10; ++sky) {
        Covers covers{};
        for (auto& level : covers) {
            for (int& percent : level) {
                percent = random() % 2 == 0 ? 1 : 1 + static_cast<int>(random() % 60);
            }
        }
        auto before = free_shares(clouds_of(covers));
        for (int added = 0; added < 3; ++added) {
            auto& level = covers[random() % 3];
            const std::size_t from = random() % kColumns;
            for (std::size_t i = from; i < std::min<std::size_t>(from + 6, kColumns); ++i) {
                level[i] = std::min(100, level[i] + 20);
            }
            const auto after = free_shares(clouds_of(covers));
            for (std::size_t i = 0; i < after.size(); ++i) {
                ASSERT_LE(after[i], before[i] + 1e-9) << "sky " << sky << ", ray " << i;
            }
            before = after;
        }
    }
}

TEST(SyntheticLightPath, AClearPathIsFree) {
    Covers covers{};
    for (const double free : free_shares(clouds_of(covers))) {
        EXPECT_EQ(free, 1.0);
    }
}

}  // namespace
}  // namespace gloam
