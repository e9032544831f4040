// Clear level illuminance against the polynomial of the Explanatory Supplement to the Astronomical Almanac,
// seen through four open programs that quote it. It does not state its aerosol: ordinary haze meets it. In
// the default air the sky is brighter than the curve by more (the Monte Carlo solver says the same:
// docs/sky-check.md).
#include <gtest/gtest.h>

#include <cstdio>
#include <string>

#include "reference/astro/worst.hpp"
#include "reference/sky/handbook.hpp"
#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

TEST(LevelIlluminance, OfOrdinaryHazeStaysWithin35PercentOfTheHandbookThroughTwilight) {
    const Air haze = test::air_with_aerosol(0.20);
    const test::ReferenceFile file("illuminance_sun_polynomial_coefficients.csv");
    test::Worst worst;
    for (double altitude_deg = 10.0; altitude_deg >= -12.0; altitude_deg -= 1.0) {
        const double lx = test::handbook_lx(file, altitude_deg);
        const double ratio = test::level_light(haze, altitude_deg).y / lx;
        std::printf("over handbook at %5.1f deg: %.3f in haze, %.3f in the default air\n", altitude_deg,
                    ratio, test::level_light(test::default_air(), altitude_deg).y / lx);
        worst.add(100.0 * (ratio - 1.0), std::to_string(altitude_deg) + " deg");
    }
    worst.report("level illuminance, handbook", "%");
    EXPECT_LT(worst.value(), 35.0);
}

}  // namespace
}  // namespace gloam::sky
