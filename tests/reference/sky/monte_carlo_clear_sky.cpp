// The clear sky against numbers of the repository's Monte Carlo solver (docs/sky-check.md, AOD 0.10), for
// every build; the solver itself: tests/reference/montecarlo.
#include <gtest/gtest.h>

#include <cstdio>
#include <string>

#include "reference/astro/worst.hpp"
#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::default_air;
using test::Worst;

double percent(double ours, double theirs) {
    return 100.0 * (ours / theirs - 1.0);
}

TEST(ClearSky, LevelIlluminanceIsWithinThreePercent) {
    Worst worst;
    for (const auto& [sun_deg, lx] : {std::pair{10.0, 1.39e4},
                                      {6.0, 6.94e3},
                                      {4.0, 4.20e3},
                                      {2.0, 2.18e3},
                                      {0.0, 918.0},
                                      {-1.0, 518.0},
                                      {-2.0, 257.0},
                                      {-3.0, 110.0},
                                      {-4.0, 39.0},
                                      {-5.0, 12.1},
                                      {-6.0, 3.63},
                                      {-7.0, 1.15},
                                      {-8.0, 0.370}}) {
        const double ours = test::level_light(default_air(), sun_deg).y;
        worst.add(percent(ours, lx), std::to_string(sun_deg) + " deg");
        std::printf("level illuminance at %5.1f deg: %.4g lx, expected %.4g\n", sun_deg, ours, lx);
    }
    worst.report("level illuminance", "%");
    EXPECT_LT(worst.value(), 3.0);
}

struct Seen {
    double sun_deg, elevation_deg, azimuth_deg, cd_m2, x, y;
};
constexpr Seen kSeen[] = {{0.0, 90.0, 0.0, 145.0, 0.259, 0.270},    {-3.0, 90.0, 0.0, 17.6, 0.256, 0.259},
                          {-6.0, 90.0, 0.0, 0.530, 0.233, 0.231},   {2.0, 2.5, 0.0, 8.37e3, 0.479, 0.416},
                          {0.0, 2.5, 0.0, 1.74e3, 0.476, 0.392},    {-3.0, 2.5, 0.0, 187.0, 0.419, 0.380},
                          {0.0, 5.0, 0.0, 2.24e3, 0.438, 0.394},    {-4.0, 5.0, 0.0, 148.0, 0.395, 0.383},
                          {-2.0, 15.0, 0.0, 396.0, 0.309, 0.323},   {-6.0, 15.0, 0.0, 7.39, 0.286, 0.294},
                          {-1.0, 10.0, 90.0, 243.0, 0.299, 0.315},  {-2.0, 5.0, 180.0, 61.7, 0.299, 0.296},
                          {-2.0, 15.0, 180.0, 105.0, 0.296, 0.304}, {-4.0, 5.0, 180.0, 6.84, 0.262, 0.270}};

std::string name_of(const Seen& seen) {
    return "sun " + std::to_string(seen.sun_deg) + ", " + std::to_string(seen.elevation_deg) +
           " high, azimuth " + std::to_string(seen.azimuth_deg);
}

Xyz ours(const Seen& seen) {
    return test::sky_light(default_air(), seen.sun_deg, seen.elevation_deg, seen.azimuth_deg);
}

TEST(ClearSky, LuminanceIsWithinEightPercent) {
    Worst worst;
    for (const Seen& seen : kSeen) {
        worst.add(percent(ours(seen).y, seen.cd_m2), name_of(seen));
    }
    worst.report("clear luminance", "%");
    EXPECT_LT(worst.value(), 8.0);
}

TEST(ClearSky, ColourIsTheSame) {
    Worst worst;
    for (const Seen& seen : kSeen) {
        const Chromaticity colour = chromaticity(ours(seen));
        worst.add(colour.x - seen.x, name_of(seen) + ", x");
        worst.add(colour.y - seen.y, name_of(seen) + ", y");
    }
    worst.report("clear colour", "x, y");
    EXPECT_LT(worst.value(), 0.008);
}

}  // namespace
}  // namespace gloam::sky
