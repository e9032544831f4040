// Light of the night against what others state of it: the formula of Krisciunas and Schaefer 1991 as another
// program computes it, the handbook's moon and dusk (Explanatory Supplement), the darkest readings of
// Spitschan et al. 2016.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <string>

#include "reference/astro/worst.hpp"
#include "reference/sky/handbook.hpp"
#include "sky/light.hpp"
#include "sky/night.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::default_air;
using test::ReferenceFile;

constexpr double kCdPerNanolambert = 3.18309886e-6;

MoonState moon_at(double elevation_deg, double phase_deg = 0.0) {
    return {Angle::degrees(elevation_deg), Angle{}, Angle::degrees(phase_deg), 1.0};
}

/// Azimuth at which a direction 60 deg up stands 60 deg from a moon 45 deg up.
Angle sixty_degrees_from_the_moon() {
    const double up = std::sqrt(3.0) / 2.0 * std::sqrt(0.5);
    const double level = 0.5 * std::sqrt(0.5);
    return Angle::radians(std::acos((0.5 - up) / level));
}

TEST(MoonlitAir, IsThatOfKrisciunasAndSchaefer) {
    const ReferenceFile file("moonlight_check.csv");
    test::Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const double phase_deg = file.number(row, "phase_angle_deg");
        const double ours = moonlit_air_cd_m2(moon_at(45.0, phase_deg), Angle::degrees(60.0),
                                              sixty_degrees_from_the_moon(), 0.172) /
                            kCdPerNanolambert;
        const double theirs = file.number(row, "KS91_B_nanolambert_rho60_Z30_Zm45_k0.172");
        worst.add(100.0 * (ours / theirs - 1.0), std::to_string(phase_deg) + " deg");
    }
    worst.report("moonlit air 60 deg from the moon", "%");
    EXPECT_LT(worst.value(), 0.1);
}

TEST(MoonBrightness, FallsWithPhaseAsTheHandbookHasIt) {
    test::Worst worst;
    for (double phase_deg = 0.0; phase_deg <= 120.0; phase_deg += 10.0) {
        // Explanatory Supplement, from four open programs.
        const double handbook = std::pow(10.0, -8.68e-3 * phase_deg - 2.2e-9 * std::pow(phase_deg, 4));
        worst.add(100.0 * (moon_brightness(moon_at(45.0, phase_deg)) / handbook - 1.0),
                  std::to_string(phase_deg) + " deg");
    }
    worst.report("moon by phase", "%");
    EXPECT_LT(worst.value(), 25.0) << "the two formulas part by that much at half moon";
}

/// Level light of the moon alone: with it, less without.
double level_moonlight_lx(double elevation_deg) {
    const NightSky moonlit(default_air(), {moon_at(elevation_deg), 0.0});
    const NightSky moonless(default_air(), {});
    return moonlit.level_light().y - moonless.level_light().y;
}

TEST(LevelMoonlight, IsTheHandbooksWithinAFactor1Point5) {
    const ReferenceFile file("illuminance_moon_polynomial_coefficients.csv");
    test::Worst worst;
    for (const double elevation_deg : {5.0, 10.0, 20.0, 30.0, 45.0, 60.0, 90.0}) {
        const double ours = level_moonlight_lx(elevation_deg);
        const double theirs = test::handbook_lx(file, elevation_deg);
        std::printf("full moon %2.0f deg up: %.4f lx, handbook %.4f lx\n", elevation_deg, ours, theirs);
        worst.add(std::log(ours / theirs), std::to_string(elevation_deg) + " deg");
    }
    worst.report("level light of the full moon", "in ln");
    EXPECT_LT(worst.value(), std::log(1.5));
}

/// Sun and moonless night together.
double level_light_lx(double sun_deg) {
    return test::level_light(default_air(), sun_deg).y + NightSky(default_air(), {}).level_light().y;
}

// AMS Glossary of Meteorology, astronomical twilight.
TEST(AstronomicalTwilight, BeginsAndEndsAsBrightAsTheGlossaryHasItWithinAFactor1Point5) {
    EXPECT_LT(std::abs(std::log(level_light_lx(-12.0) / 8e-3)), std::log(1.5));
    EXPECT_LT(std::abs(std::log(level_light_lx(-18.0) / 6e-4)), std::log(1.5));
}

// Weather not stated as clear; nights of a rural site in Pennsylvania.
TEST(AstronomicalTwilight, IsAsBrightAsMeasuredWithinAFactor2) {
    const ReferenceFile rural("twilight_spitschan2016_rural_corrected.csv");
    test::Worst worst;
    for (std::size_t row = 0; row < rural.size(); ++row) {
        const double sun_deg = rural.number(row, "corrected_elev_deg");
        if (sun_deg > -11.0) {
            continue;
        }
        const double ratio = level_light_lx(sun_deg) / rural.number(row, "Ev_lx");
        std::printf("%s %.2f deg: model over measured %.2f\n", rural.text(row, "series").c_str(), sun_deg,
                    ratio);
        worst.add(std::log(ratio), rural.text(row, "series") + " " + std::to_string(sun_deg) + " deg");
    }
    worst.report("level illuminance in the dark, measured", "in ln");
    EXPECT_EQ(worst.count(), 8);
    EXPECT_LT(worst.value(), std::log(2.0));
}

// The curve lies above the measurements too, by a factor 2.2 to 2.6 about -15 deg.
TEST(AstronomicalTwilight, IsDarkerThanTheHandbooksCurveByNoMoreThanIsKnown) {
    const ReferenceFile file("illuminance_sun_polynomial_coefficients.csv");
    test::Worst worst;
    for (double sun_deg = -12.0; sun_deg >= -18.0; sun_deg -= 1.0) {
        const double ratio = level_light_lx(sun_deg) / test::handbook_lx(file, sun_deg);
        std::printf("%5.1f deg: model over handbook %.3f\n", sun_deg, ratio);
        worst.add(std::log(ratio), std::to_string(sun_deg) + " deg");
    }
    worst.report("level illuminance in the dark, handbook", "in ln");
    EXPECT_LT(worst.value(), std::log(2.2));
}

// Spitschan et al. 2016, rural site, moonless and clear of twilight: 8e-4 to 1e-3 lx.
TEST(MoonlessNight, IsAsBrightAsMeasuredWithinAFactor2) {
    const double ours_lx = NightSky(default_air(), {}).level_light().y;
    EXPECT_GT(ours_lx, 8e-4 / 2.0);
    EXPECT_LT(ours_lx, 1e-3 * 2.0);
}

}  // namespace
}  // namespace gloam::sky
