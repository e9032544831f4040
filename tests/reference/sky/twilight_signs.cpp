// Signs that observation has settled: what ozone, Earth's shadow and volcanic haze do to the twilight sky.
#include <gtest/gtest.h>

#include <cstdio>

#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::default_air;
using test::sky_light;

/// An atmosphere with diffuse light of its own: coarse, but alike on both sides of a comparison.
Air solved_air(const Atmosphere& atmosphere) {
    Air air(test::tables(), atmosphere);
    const SolverSettings coarse{.orders = 3, .zeniths_per_hemisphere = 4, .azimuths = 3, .steps = 14};
    air.diffuse = solve_diffuse(test::tables().bands, test::tables().columns, atmosphere, coarse);
    return air;
}

Air air_with_sulphate(double depth_550) {
    Atmosphere atmosphere;
    atmosphere.sulphate_depth_550 = depth_550;
    atmosphere.sulphate_angstrom = 1.3;
    return {test::tables(), atmosphere};
}

void report(const char* what, const Chromaticity& without, const Chromaticity& with) {
    std::printf("%s: %.3f %.3f without, %.3f %.3f with\n", what, without.x, without.y, with.x, with.y);
}

// Hulburt 1953, as told by Lee, Meyer and Hoeppe 2011: ozone makes the twilight zenith blue.
TEST(TwilightZenith, IsBlueBecauseOfOzone) {
    Atmosphere without;
    without.ozone_du = 0.0;
    const Chromaticity yellow = chromaticity(sky_light(solved_air(without), -5.0, 90.0, 0.0));
    const Chromaticity blue = chromaticity(sky_light(solved_air(Atmosphere{}), -5.0, 90.0, 0.0));
    report("zenith at -5 deg, ozone", yellow, blue);
    EXPECT_LT(blue.x, yellow.x - 0.05);
    EXPECT_LT(blue.y, yellow.y - 0.05);
    EXPECT_LT(blue.x, 0.26);
    EXPECT_GT(yellow.x, 0.3127) << "yellow of daylight white";
}

// AMS Glossary, dark segment and anti-twilight arch.
TEST(EarthsShadow, IsDarkerAndBluerThanTheBeltAboveIt) {
    const Xyz shadow = sky_light(default_air(), -2.0, 3.0, 180.0);
    const Xyz belt = sky_light(default_air(), -2.0, 12.0, 180.0);
    report("belt and shadow at -2 deg", chromaticity(belt), chromaticity(shadow));
    EXPECT_LT(shadow.y, 0.8 * belt.y);
    EXPECT_LT(chromaticity(shadow).x, chromaticity(belt).x);
}

// Lee 2015: the belt is most vivid at modest aerosol optical depth.
TEST(BeltOfVenus, FadesInHaze) {
    const Air haze = test::air_with_aerosol(0.50);
    const double clear_x = chromaticity(sky_light(default_air(), -1.5, 12.0, 180.0)).x;
    const double hazy_x = chromaticity(sky_light(haze, -1.5, 12.0, 180.0)).x;
    std::printf("belt at -1.5 deg: x %.3f at AOD .10, %.3f at .50\n", clear_x, hazy_x);
    EXPECT_LT(hazy_x, clear_x);
}

// Lee and Hernandez-Andres 2003: background stratospheric aerosol alone does not make the purple light.
TEST(PurpleLight, ComesWithStratosphericSulphate) {
    const Chromaticity background = chromaticity(sky_light(default_air(), -4.0, 20.0, 0.0));
    const Chromaticity volcanic = chromaticity(sky_light(air_with_sulphate(0.03), -4.0, 20.0, 0.0));
    report("sun side 20 deg high at -4 deg, sulphate", background, volcanic);
    EXPECT_GT(volcanic.x, background.x + 0.05);
}

TEST(PurpleLight, IsAbsentWithBackgroundSulphate) {
    const Chromaticity background = chromaticity(sky_light(default_air(), -4.0, 20.0, 0.0));
    EXPECT_LT(background.x, 0.325) << "no redder than daylight white";
}

TEST(PurpleLight, ReachesTheZenith) {
    const Chromaticity background = chromaticity(sky_light(default_air(), -4.0, 90.0, 0.0));
    const Chromaticity volcanic = chromaticity(sky_light(air_with_sulphate(0.03), -4.0, 90.0, 0.0));
    report("zenith at -4 deg, sulphate", background, volcanic);
    EXPECT_GT(volcanic.x, background.x + 0.02);
}

}  // namespace
}  // namespace gloam::sky
