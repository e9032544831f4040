// Clear level illuminance against the polynomial of the Explanatory Supplement to the Astronomical Almanac,
// seen through four open programs that quote it. It does not state its aerosol.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <string>

#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"
#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

double handbook_lx(const test::ReferenceFile& file, double altitude_deg) {
    for (std::size_t row = 0; row < file.size(); ++row) {
        if (altitude_deg >= file.number(row, "alt_lo_deg") &&
            altitude_deg <= file.number(row, "alt_hi_deg")) {
            const double x = altitude_deg / 90.0;
            return std::pow(10.0, file.number(row, "l0") +
                                      x * (file.number(row, "l1") +
                                           x * (file.number(row, "l2") + x * file.number(row, "l3"))));
        }
    }
    throw std::runtime_error("outside the handbook");
}

TEST(LevelIlluminance, StaysWithin35PercentOfTheHandbookThroughTwilight) {
    const test::ReferenceFile file("illuminance_sun_polynomial_coefficients.csv");
    test::Worst worst;
    for (double altitude_deg = 10.0; altitude_deg >= -12.0; altitude_deg -= 1.0) {
        const double ratio =
            test::level_light(test::default_air(), altitude_deg).y / handbook_lx(file, altitude_deg);
        std::printf("model over handbook at %5.1f deg: %.3f\n", altitude_deg, ratio);
        worst.add(100.0 * (ratio - 1.0), std::to_string(altitude_deg) + " deg");
    }
    worst.report("level illuminance, handbook", "%");
    EXPECT_LT(worst.value(), 35.0);
}

}  // namespace
}  // namespace gloam::sky
