// What a Monte Carlo review of lit cloud said must hold, or the cloud light is wrong: docs/sky.md, "What
// would prove it wrong". Numbers are the reviewer's; they come from a program that shares no line with this
// one.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "air/standard_atmosphere.hpp"
#include "reference/astro/worst.hpp"
#include "sky/event.hpp"
#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::air_with_aerosol;
using test::default_air;
using test::event_of;
using test::middle_layer;
using test::sun_at;

/// Beam light per horizontal area under a deck at `height_m`, lx: all that it can take from a sun below it.
double budget_lx(const Air& air, double height_m, double elevation_deg) {
    const double apparent_rad =
        air.beam.columns().apparent_zenith_rad(height_m, test::zenith_rad(elevation_deg));
    return test::beam_light(air, height_m, elevation_deg).y * std::max(0.0, -std::cos(apparent_rad));
}

double best_budget_lx(const Air& air, double height_m) {
    double best = 0.0;
    for (double elevation_deg = 0.5; elevation_deg > -5.0; elevation_deg -= 0.01) {
        best = std::max(best, budget_lx(air, height_m, elevation_deg));
    }
    return best;
}

class CloudBudget : public ::testing::TestWithParam<std::pair<double, std::vector<double>>> {};

TEST_P(CloudBudget, GrowsWithHeightAsTheReviewSays) {
    constexpr double kHeights_km[] = {3, 4, 5, 6, 7, 9, 11};
    const auto& [depth, expected_lx] = GetParam();
    const Air air = air_with_aerosol(depth);
    test::Worst worst;
    for (std::size_t i = 0; i < expected_lx.size(); ++i) {
        const double lx = best_budget_lx(air, kHeights_km[i] * 1e3);
        std::printf("AOD %.2f, %2.0f km: best budget %.1f lx, review %.1f\n", depth, kHeights_km[i], lx,
                    expected_lx[i]);
        // The review rounds to whole lux (small ones to tenths): half a unit is not an error.
        const double rounding_lx = expected_lx[i] < 2.0 ? 0.05 : 0.5;
        const double beyond_lx = std::max(0.0, std::abs(lx - expected_lx[i]) - rounding_lx);
        worst.add(100.0 * beyond_lx / expected_lx[i], std::to_string(kHeights_km[i]) + " km");
    }
    worst.report("best budget beyond rounding", "%");
    EXPECT_LT(worst.value(), 5.0);
}

INSTANTIATE_TEST_SUITE_P(
    , CloudBudget,
    ::testing::Values(std::pair{0.10, std::vector<double>{6, 17, 34, 57, 88, 158, 245}},
                      std::pair{0.03, std::vector<double>{18, 33, 51, 73, 101, 166, 248}},
                      std::pair{0.20, std::vector<double>{1.4, 7, 21, 43, 74, 149, 240}}),
    [](const auto& column) { return "Aod" + std::to_string(std::lround(100.0 * column.param.first)); });

// Overhead; a deck towards the sun sees it higher, by 1 deg in 111 km.
TEST(MiddleCloud, OverheadIsNotLitFromBelowAfterMinusTwoInHazyAir) {
    double most_lx = 0.0;
    double most_share = 0.0;
    for (const double depth : {0.10, 0.25, 0.50}) {
        for (const double scale_height_m : {1500.0, 2000.0, 2500.0}) {
            const Air air = air_with_aerosol(depth, scale_height_m);
            for (double elevation_deg = -2.0; elevation_deg >= -4.0; elevation_deg -= 0.1) {
                for (const double height_m : {1000.0, 2000.0, 3000.0, 4000.0}) {
                    const double lx = budget_lx(air, height_m, elevation_deg);
                    const double around_lx = air.bands
                                                 ->xyz(air.diffuse.at(DiffuseField::Kind::kUp, height_m,
                                                                      test::zenith_rad(elevation_deg)))
                                                 .y;
                    most_lx = std::max(most_lx, lx);
                    most_share = std::max(most_share, lx / around_lx);
                }
            }
        }
    }
    std::printf("4 km and lower, after -2 deg: beam at most %.2f lx, %.2f %% of the light from below\n",
                most_lx, 100.0 * most_share);
    EXPECT_LT(most_lx, 2.0);
    EXPECT_LT(most_share, 0.03);
}

/// A panorama of chosen directions.
Panorama look(const Air& air, const std::vector<CloudLayer>& layers, double sun_deg,
              std::vector<double> elevations_deg, std::vector<double> azimuths_deg) {
    PanoramaGrid grid;
    for (const double e : elevations_deg) {
        grid.elevations.push_back(Angle::degrees(e));
    }
    for (const double a : azimuths_deg) {
        grid.azimuths.push_back(Angle::degrees(a));
    }
    return SkyPainter(air, 0.0, grid, 60).paint(CloudField(layers), sun_at(sun_deg));
}

/// How much brighter the lit part of a single layer is than its unlit part, cd m-2.
double lit_excess(const PanoramaCell& cell) {
    return cell.patches[0].light.y - cell.patches[1].light.y;
}

/// Beam light of a single layer averaged over all sky in the direction, cd m-2.
double sky_mean_of_lit_light(const PanoramaCell& cell) {
    return lit_excess(cell) * cell.patches[0].share;
}

TEST(LitMiddleCloud, HasTheSameLightForAnyCoverThatClosesInPerspective) {
    test::Worst worst;
    const std::vector<double> elevations_deg{5.0, 15.0, 30.0};
    const std::vector<double> azimuths_deg{0.0, 45.0, 90.0, 180.0};
    const Panorama full = look(default_air(), {middle_layer(1.0, 60.0)}, -1.0, elevations_deg, azimuths_deg);
    for (const double cover : {0.3, 0.6, 0.9}) {
        const Panorama broken =
            look(default_air(), {middle_layer(cover, 60.0)}, -1.0, elevations_deg, azimuths_deg);
        for (std::size_t i = 0; i < full.cells.size(); ++i) {
            const double elevation_deg = elevations_deg[i / azimuths_deg.size()];
            const double azimuth_deg = azimuths_deg[i % azimuths_deg.size()];
            const double ratio =
                sky_mean_of_lit_light(broken.cells[i]) / sky_mean_of_lit_light(full.cells[i]);
            std::printf("cover %.1f, %2.0f deg up, azimuth %3.0f: %.2f of a full deck\n", cover,
                        elevation_deg, azimuth_deg, ratio);
            worst.add(100.0 * (ratio - 1.0), std::to_string(cover));
        }
    }
    worst.report("light of broken over full middle cloud", "%");
    EXPECT_LT(worst.value(), 30.0);
}

/// Transmission in yellow light of the air between the viewer and a cloud base, 15 deg up.
double air_before(double base_m) {
    const double sine = std::sin(Angle::degrees(15.0).radians());
    const Air& air = default_air();
    const AirRay ray = cast_ray(0.0, sine, 90, air.optics, air.atmosphere.aerosol_scale_height_m);
    FloatSpectrum transmission;
    ray.transmission_at(path_to_radius_m(ray.start_radius_m, sine, air::kEarthRadius_m + base_m, true),
                        transmission);
    constexpr std::size_t kYellow = 9;  // 560 to 580 nm
    return static_cast<double>(transmission[kYellow]);
}

// The luminance of the cloud itself: the air in front of the farther, higher deck takes 5 % more of it.
TEST(LitMiddleCloud, AtSixKilometresIsThreeToFiveTimesAsBrightAsAtFour) {
    for (const double azimuth_deg : {0.0, 90.0}) {
        const auto seen = [&](double base_m) {
            return lit_excess(
                look(default_air(), {middle_layer(0.6, 60.0, base_m)}, -1.0, {15.0}, {azimuth_deg}).cells[0]);
        };
        const double through_air = seen(6000.0) / seen(4000.0);
        const double at_cloud = through_air * air_before(4000.0) / air_before(6000.0);
        std::printf("lit cloud 6 km over 4 km, azimuth %2.0f: %.2f, seen through the air %.2f\n", azimuth_deg,
                    at_cloud, through_air);
        EXPECT_GT(at_cloud, 3.0) << azimuth_deg;
        EXPECT_LT(at_cloud, 5.0) << azimuth_deg;
    }
}

TEST(HighCanopy, PassesLightOfTheBeamWhenTheSunStandsAboveIt) {
    const double cd_m2 =
        sky_mean_of_lit_light(look(default_air(), {test::high_layer(1.0)}, 1.0, {30.0}, {0.0}).cells[0]);
    std::printf("closed high canopy at +1 deg, 30 deg up towards the sun: %.0f cd m-2 of the beam\n", cd_m2);
    EXPECT_GT(cd_m2, 100.0);
    EXPECT_LT(cd_m2, 300.0);
}

TEST(MiddleCloud, WithoutAGapTakesColourAwayTheMoreThereIs) {
    double before = 100.0;
    for (double cover = 0.1; cover < 1.05; cover += 0.1) {
        const double here = event_of(default_air(), {middle_layer(std::min(cover, 1.0))}).after;
        std::printf("middle cover %.1f without a gap: %.1f\n", cover, here);
        EXPECT_LT(here, before) << cover;
        before = here;
    }
}

TEST(MiddleCloud, WithASlotBeyond60KilometresBeatsNoSlot) {
    for (double cover = 0.1; cover < 1.05; cover += 0.1) {
        const double f = std::min(cover, 1.0);
        const double slot = event_of(default_air(), {middle_layer(f, 60.0)}).after;
        const double closed = event_of(default_air(), {middle_layer(f)}).after;
        std::printf("middle cover %.1f: %.1f with a slot, %.1f without\n", f, slot, closed);
        EXPECT_GT(slot, closed) << f;
    }
}

TEST(ColourStrength, RanksOvercastBelowClearBelowAHighCanopyWithAnOpenEdge) {
    const double overcast = event_of(default_air(), {test::low_layer(1.0)}).after;
    const double clear = event_of(default_air(), {}).after;
    const double canopy = event_of(default_air(), {test::high_layer(1.0, 250.0)}).after;
    std::printf("strength after sunset: low overcast %.1f, clear %.1f, high canopy %.1f\n", overcast, clear,
                canopy);
    EXPECT_LT(overcast, clear);
    EXPECT_LT(clear, canopy);
}

}  // namespace
}  // namespace gloam::sky
