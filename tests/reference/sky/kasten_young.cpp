// Air mass against the formula of Kasten and Young 1989, Applied Optics 28, 4735. Its constants are quoted
// from memory; the title was seen, the paper was not.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include "air/ray.hpp"
#include "air/standard_atmosphere.hpp"
#include "reference/astro/worst.hpp"

namespace gloam::air {
namespace {

double kasten_young(double apparent_altitude_deg) {
    return 1.0 / (std::sin(apparent_altitude_deg * std::numbers::pi / 180.0) +
                  0.50572 * std::pow(apparent_altitude_deg + 6.07995, -1.6364));
}

double air_mass(double apparent_altitude_deg) {
    const std::array<Profile, 1> profiles{
        [](double height_m) { return standard_atmosphere(height_m).relative_density; }};
    std::array<double, 1> slant{};
    std::array<double, 1> vertical{};
    trace_to_space(0.0, Angle::degrees(90.0 - apparent_altitude_deg), profiles, slant);
    trace_to_space(0.0, Angle::degrees(0.0), profiles, vertical);
    return slant[0] / vertical[0];
}

TEST(KastenYoung, IsMetWithinOnePercentAtTheHorizonAndAFifthOfThatFromTwoDegrees) {
    test::Worst low;
    test::Worst high;
    for (const double altitude_deg : {0.0, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 90.0}) {
        (altitude_deg < 2.0 ? low : high)
            .add(100.0 * (air_mass(altitude_deg) / kasten_young(altitude_deg) - 1.0),
                 std::to_string(altitude_deg) + " deg");
    }
    low.report("air mass below 2 deg, Kasten and Young", "%");
    high.report("air mass from 2 deg, Kasten and Young", "%");
    EXPECT_LT(low.value(), 1.0);
    EXPECT_LT(high.value(), 0.2);
}

}  // namespace
}  // namespace gloam::air
