// The clear sky against the numbers of an independent program (docs/sky.md, section 8), in which light that
// is scattered again is scattered evenly: so it is here.
#include <gtest/gtest.h>

#include <cstdio>
#include <string>

#include "reference/astro/worst.hpp"
#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::level_light;
using test::sky_light;
using test::Worst;

/// The default air, its diffuse light spread evenly.
const Air& even_air() {
    static const Air kAir = [] {
        Air air(test::tables(), Atmosphere{});
        SolverSettings settings;
        settings.degree = 0;
        air.diffuse = solve_diffuse(test::tables().bands, test::tables().columns, Atmosphere{}, settings);
        return air;
    }();
    return kAir;
}

double percent(double ours, double theirs) {
    return 100.0 * (ours / theirs - 1.0);
}

TEST(EvenlyScatteredSky, LevelIlluminanceIsWithinFivePercent) {
    Worst worst;
    for (const auto& [elevation_deg, lx] : {std::pair{6.0, 6800.0},
                                            {4.0, 4080.0},
                                            {2.0, 2100.0},
                                            {0.0, 881.0},
                                            {-1.0, 498.0},
                                            {-2.0, 248.0},
                                            {-3.0, 105.0},
                                            {-4.0, 37.3},
                                            {-5.0, 11.7},
                                            {-6.0, 3.52},
                                            {-7.0, 1.08},
                                            {-8.0, 0.353},
                                            {-9.0, 0.119},
                                            {-10.0, 0.0417},
                                            {-11.0, 0.0158},
                                            {-12.0, 0.0061}}) {
        const double ours = level_light(even_air(), elevation_deg).y;
        worst.add(percent(ours, lx), std::to_string(elevation_deg) + " deg");
        std::printf("level illuminance at %5.1f deg: %.4g lx, expected %.4g\n", elevation_deg, ours, lx);
    }
    worst.report("level illuminance", "%");
    EXPECT_LT(worst.value(), 5.0);
}

TEST(EvenlyScatteredSky, ZenithIsWithinFivePercent) {
    Worst worst;
    for (const auto& [elevation_deg, cd_m2] :
         {std::pair{0.0, 153.0}, {-3.0, 18.7}, {-6.0, 0.617}, {-9.0, 0.0209}}) {
        worst.add(percent(sky_light(even_air(), elevation_deg, 90.0, 0.0).y, cd_m2),
                  std::to_string(elevation_deg) + " deg");
    }
    worst.report("zenith luminance", "%");
    EXPECT_LT(worst.value(), 5.0);
}

TEST(EvenlyScatteredSky, ZenithIsBlueAtTheEndOfCivilTwilight) {
    const Chromaticity colour = chromaticity(sky_light(even_air(), -6.0, 90.0, 0.0));
    Worst worst;
    worst.add(colour.x - 0.238, "x");
    worst.add(colour.y - 0.237, "y");
    worst.report("zenith colour at -6 deg", "x, y");
    EXPECT_LT(worst.value(), 0.004);
}

struct Case {
    double sun_deg, elevation_deg, azimuth_deg, cd_m2, x, y;
};
constexpr Case kSunSide[] = {{0.0, 5.0, 0.0, 1924.0, 0.446, 0.397}, {-4.0, 5.0, 0.0, 124.0, 0.402, 0.388}};

TEST(EvenlyScatteredSky, HorizonBelowTheSunIsWithinEightPercent) {
    Worst worst;
    for (const Case& c : kSunSide) {
        worst.add(percent(sky_light(even_air(), c.sun_deg, c.elevation_deg, c.azimuth_deg).y, c.cd_m2),
                  std::to_string(c.sun_deg) + " deg");
    }
    worst.report("sun side 5 deg high", "%");
    EXPECT_LT(worst.value(), 8.0);
}

TEST(EvenlyScatteredSky, HorizonBelowTheSunHasTheSameColour) {
    Worst worst;
    for (const Case& c : kSunSide) {
        const Chromaticity colour =
            chromaticity(sky_light(even_air(), c.sun_deg, c.elevation_deg, c.azimuth_deg));
        worst.add(colour.x - c.x, std::to_string(c.sun_deg) + " deg, x");
        worst.add(colour.y - c.y, std::to_string(c.sun_deg) + " deg, y");
    }
    worst.report("colour of the sun side", "x, y");
    EXPECT_LT(worst.value(), 0.006);
}

TEST(EvenlyScatteredSky, EarthsShadowAndTheBeltAboveItAreWithinEightPercent) {
    Worst worst;
    worst.add(percent(sky_light(even_air(), -2.0, 5.0, 180.0).y, 61.7), "5 deg high");
    worst.add(percent(sky_light(even_air(), -2.0, 15.0, 180.0).y, 101.6), "15 deg high");
    worst.report("away from the sun at -2 deg", "%");
    EXPECT_LT(worst.value(), 8.0);
}

}  // namespace
}  // namespace gloam::sky
