#include "sheet/sky_cloud.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <string>

#include "sheet/seen_sky.hpp"

namespace gloam::sheet {
namespace {

using example::seen_sky;
using test::low_layer;
using test::middle_layer;

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kPixel_rad = 0.1 * kDegree;

/// The only layer of a sky, drawn.
struct OneLayer {
    outlook::SeenSky seen;
    SkyLights lights;
    OpenSky open;
    CloudSheet sheet;

    explicit OneLayer(const sky::CloudLayer& layer, double sun_deg)
        : seen(seen_sky({layer}, sun_deg)),
          lights(seen.panorama, 1),
          open{std::vector<double>(sky_lattice().size(), 1.0),
               std::vector<double>(sky_lattice().size(), 1.0)},
          sheet(seen, 0, lights, 5, kPixel_rad, open) {}

    DrawnCloud at(double azimuth_deg, double elevation_deg) const {
        const SkyDirection direction{azimuth_deg * kDegree, elevation_deg * kDegree};
        return sheet.at(direction, lights.at(direction).layers[0]);
    }
};

double mean_of(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

class LookingAcross : public ::testing::TestWithParam<double> {};

/// Edges on the sun's side against edges away from it, over 40 deg of the sky.
TEST_P(LookingAcross, CloudIsBrighterWhereItSlopesTowardsTheSun) {
    constexpr double kEdge = 0.3;
    const OneLayer layer(middle_layer(0.5, 100.0, 6000.0), -1.5);
    const double away_deg = GetParam() > 0.0 ? 1.0 : -1.0;
    std::vector<double> sunward;
    std::vector<double> averted;
    for (double elevation_deg = 15.0; elevation_deg < 40.0; elevation_deg += 0.7) {
        for (double off_deg = -20.0; off_deg < 20.0; off_deg += 0.7) {
            const double azimuth_deg = GetParam() + off_deg;
            const double thinner = layer.at(azimuth_deg + away_deg, elevation_deg).opacity -
                                   layer.at(azimuth_deg - away_deg, elevation_deg).opacity;
            const SkyDirection direction{azimuth_deg * kDegree, elevation_deg * kDegree};
            const double brightness =
                layer.at(azimuth_deg, elevation_deg).light.y / layer.lights.at(direction).layers[0].mean().y;
            if (std::abs(thinner) > kEdge) {
                (thinner > 0.0 ? sunward : averted).push_back(brightness);
            }
        }
    }
    ASSERT_GT(std::min(sunward.size(), averted.size()), 50U);
    const LayerLight light = layer.lights.at({GetParam() * kDegree, 25.0 * kDegree}).layers[0];
    const double most = (light.lit.y - light.unlit.y) / light.mean().y;
    EXPECT_GT(mean_of(sunward) - mean_of(averted), 0.25 * most);
}

INSTANTIATE_TEST_SUITE_P(, LookingAcross, ::testing::Values(-90.0, 90.0), [](const auto& azimuth) {
    return std::string(azimuth.param < 0.0 ? "ToTheLeft" : "ToTheRight");
});

TEST(CloudSheet, OfAClosedLayerHasNoHole) {
    const OneLayer layer(low_layer(1.0), 0.0);
    for (double azimuth_deg = -180.0; azimuth_deg < 180.0; azimuth_deg += 3.1) {
        for (double elevation_deg = 1.0; elevation_deg < 80.0; elevation_deg += 3.7) {
            EXPECT_NEAR(layer.at(azimuth_deg, elevation_deg).opacity, 1.0, 1e-9);
        }
    }
}

TEST(CloudSheet, WithoutCoverIsNotThere) {
    const OneLayer layer(low_layer(0.0), 0.0);
    EXPECT_EQ(layer.at(10.0, 20.0).opacity, 0.0);
}

// Elements of a layer at 4 km look half as large at twice the distance: more changes from cloud to gap.
TEST(CloudSheet, HasSmallerElementsTowardsTheHorizon) {
    const OneLayer layer(middle_layer(0.3), -2.0);
    const auto changes = [&](double elevation_deg) {
        double sum = 0.0;
        for (double azimuth_deg = -180.0; azimuth_deg < 180.0; azimuth_deg += 0.5) {
            sum += std::abs(layer.at(azimuth_deg + 0.5, elevation_deg).opacity -
                            layer.at(azimuth_deg, elevation_deg).opacity);
        }
        return sum;
    };
    EXPECT_GT(changes(12.0), 1.3 * changes(30.0));
}

}  // namespace
}  // namespace gloam::sheet
