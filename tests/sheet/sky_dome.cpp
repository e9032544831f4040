#include "sheet/sky_dome.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "sheet/seen_sky.hpp"

namespace gloam::sheet {
namespace {

using example::seen_sky;
using test::high_layer;
using test::low_layer;
using test::middle_layer;

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kPixel_rad = 0.25 * kDegree;

/// Luminance of what is drawn in a block of the sky over that of the panorama's mixture.
double drawn_over_mixture(const SkyDome& dome, double azimuth_deg, double elevation_deg, double side_deg) {
    constexpr double kStep_deg = 0.5;
    double drawn = 0.0;
    double mixture = 0.0;
    for (double up = 0.5 * kStep_deg; up < side_deg; up += kStep_deg) {
        const double elevation_rad = (elevation_deg + up) * kDegree;
        for (double aside = 0.5 * kStep_deg; aside < side_deg; aside += kStep_deg) {
            const SkyDirection direction{(azimuth_deg + aside) * kDegree, elevation_rad};
            drawn += std::cos(elevation_rad) * dome.light_beside_sun(direction).y;
            mixture += std::cos(elevation_rad) * dome.lights().at(direction).mean().y;
        }
    }
    return drawn / mixture;
}

struct Sky {
    const char* name;
    std::vector<sky::CloudLayer> layers;
    double sun_deg;
};

class DrawnSky : public ::testing::TestWithParam<Sky> {};

// Of the logarithm: most blocks by a few percent, the worst where light is steep, beside the sun.
TEST_P(DrawnSky, HasTheLightOfTheMixtureInBlocksOf15Degrees) {
    const auto seen = seen_sky(GetParam().layers, GetParam().sun_deg);
    const SkyDome dome(seen, 1, kPixel_rad);
    double worst = 0.0;
    double squares = 0.0;
    int count = 0;
    for (double elevation_deg = 0.0; elevation_deg < 60.0; elevation_deg += 15.0) {
        for (double azimuth_deg = -180.0; azimuth_deg < 180.0; azimuth_deg += 15.0) {
            const double off = std::log(drawn_over_mixture(dome, azimuth_deg, elevation_deg, 15.0));
            worst = std::max(worst, std::abs(off));
            squares += off * off;
            ++count;
        }
    }
    const double rms = std::sqrt(squares / count);
    fmt::print("drawn over mixture, blocks of 15 deg, {}: rms {:.3f}, worst {:.3f}\n", GetParam().name, rms,
               worst);
    EXPECT_LT(rms, 0.05);
    EXPECT_LT(worst, 0.15);
}

INSTANTIATE_TEST_SUITE_P(
    , DrawnSky,
    ::testing::Values(Sky{"broken", {middle_layer(0.4, 120.0), high_layer(0.4, 250.0)}, -1.5},
                      Sky{"few", {middle_layer(0.15), high_layer(0.1)}, -4.0},
                      Sky{"canopy", {high_layer(0.95, 250.0)}, -2.5}, Sky{"overcast", {low_layer(0.98)}, 0.0},
                      Sky{"three", {low_layer(0.3), middle_layer(0.5, 120.0), high_layer(0.8, 250.0)}, 3.0}),
    [](const auto& sky) { return std::string(sky.param.name); });

}  // namespace
}  // namespace gloam::sheet
