#include "sheet/sky_light.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "sheet/seen_sky.hpp"

namespace gloam::sheet {
namespace {

using example::seen_sky;
using test::high_layer;
using test::low_layer;
using test::middle_layer;

/// Largest difference of the logarithm of luminance from the panorama's mean, over its own directions.
double worst_at_nodes(const outlook::SeenSky& seen) {
    const SkyLights lights(seen.panorama, seen.clouds.layers().size());
    const sky::PanoramaGrid& grid = seen.panorama.grid;
    double worst = 0.0;
    for (std::size_t row = 0; row < grid.elevations.size(); ++row) {
        for (std::size_t i = 0; i < grid.azimuths.size(); ++i) {
            const double read =
                lights.at({grid.azimuths[i].radians(), grid.elevations[row].radians()}).mean().y;
            worst = std::max(worst, std::abs(std::log(read / seen.panorama.cell(row, i).mean().y)));
        }
    }
    return worst;
}

TEST(SkyLights, AreThePanoramaInItsOwnDirections) {
    EXPECT_LT(worst_at_nodes(seen_sky({}, -2.0)), 1e-9);
    EXPECT_LT(
        worst_at_nodes(seen_sky({low_layer(0.3), middle_layer(0.5, 120.0), high_layer(0.8, 250.0)}, -1.0)),
        1e-9);
}

TEST(SkyLights, OfALayerThatIsHiddenByAClosedOneAreThoseOfTheClosedOne) {
    EXPECT_LT(worst_at_nodes(seen_sky({low_layer(1.0), high_layer(0.8)}, 1.0)), 1e-9);
}

TEST(SkyLights, LieBetweenThoseOfTheNeighbouringDirections) {
    const auto seen = seen_sky({}, -2.0);
    const SkyLights lights(seen.panorama, 0);
    const sky::PanoramaGrid& grid = seen.panorama.grid;
    const double low = seen.panorama.cell(14, 47).mean().y;
    const double high = seen.panorama.cell(15, 47).mean().y;
    const double between_rad = 0.5 * (grid.elevations[14].radians() + grid.elevations[15].radians());
    const double read = lights.at({grid.azimuths[47].radians(), between_rad}).mean().y;
    EXPECT_GT(read, std::min(low, high));
    EXPECT_LT(read, std::max(low, high));
}

TEST(SkyLights, MeetBehindTheViewer) {
    const auto seen = seen_sky({high_layer(0.5)}, -2.0);
    const SkyLights lights(seen.panorama, 1);
    constexpr double kHalfTurn = 3.141592653589793;
    EXPECT_NEAR(lights.at({kHalfTurn - 1e-9, 0.3}).mean().y, lights.at({-kHalfTurn + 1e-9, 0.3}).mean().y,
                1e-6);
}

TEST(SkyLights, SlideFromOneLitShareToTheOther) {
    const auto seen = seen_sky({middle_layer(0.7, 100.0)}, -1.0);
    const SkyLights lights(seen.panorama, 1);
    double before = lights.at({0.0, 0.3}).layers[0].lit_share;
    for (double azimuth_deg = 1.0; azimuth_deg <= 180.0; azimuth_deg += 1.0) {
        const double here = lights.at({azimuth_deg * 0.0174533, 0.3}).layers[0].lit_share;
        EXPECT_LT(std::abs(here - before), 0.02) << azimuth_deg;
        before = here;
    }
}

TEST(AdaptingLuminance, OfASkyLiesBetweenItsDarkestAndItsBrightest) {
    const auto seen = seen_sky({}, -2.0);
    const double mean = adapting_luminance(seen.panorama);
    EXPECT_GT(mean, seen.panorama.cell(20, 0).mean().y * 0.5);
    EXPECT_LT(mean, seen.panorama.cell(6, 47).mean().y);
}

}  // namespace
}  // namespace gloam::sheet
