#include "air/ray.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"

namespace gloam::air {
namespace {

double true_zenith_deg(double height_m, double apparent_deg) {
    const auto zenith = trace_to_space(height_m, Angle::degrees(apparent_deg), {}, {});
    return zenith ? zenith->degrees() : std::nan("");
}

/// Air whose density halves about every 5.5 km, column 1.
double thin_air_per_m(double height_m) {
    return std::exp(-height_m / 8.0e3) / 8.0e3;
}

double column(double height_m, double apparent_deg) {
    const std::array<Profile, 1> profiles{thin_air_per_m};
    std::array<double, 1> columns{};
    EXPECT_TRUE(trace_to_space(height_m, Angle::degrees(apparent_deg), profiles, columns));
    return columns[0];
}

/// Height at which the ray that arrives at `apparent_deg` > 90 deg runs level. Bouguer: r n sin z is
/// constant.
double tangent_height_m(double height_m, double apparent_deg) {
    const double invariant = (kEarthRadius_m + height_m) * refractive_index(height_m) *
                             std::sin(apparent_deg * std::numbers::pi / 180.0);
    double low_m = 0.0;
    double high_m = height_m;
    while (high_m - low_m > 1e-4) {
        const double middle_m = 0.5 * (low_m + high_m);
        const double here = (kEarthRadius_m + middle_m) * refractive_index(middle_m);
        (here < invariant ? low_m : high_m) = middle_m;
    }
    return low_m;
}

TEST(Ray, FromTheZenithIsNotBent) {
    EXPECT_NEAR(true_zenith_deg(0.0, 0.0), 0.0, 1e-12);
}

TEST(Ray, VerticalColumnIsOne) {
    EXPECT_NEAR(column(0.0, 0.0), 1.0, 2e-5);
}

TEST(Ray, LiftsEverythingBesideTheZenith) {
    for (double apparent_deg = 1.0; apparent_deg <= 90.0; apparent_deg += 0.5) {
        EXPECT_GT(true_zenith_deg(0.0, apparent_deg), apparent_deg);
    }
}

TEST(Ray, TrueAltitudeLiesBelowApparentAltitude) {
    for (const double apparent_deg : {0.0, 1.0, 10.0, 45.0, 80.0}) {
        const ApparentAltitude apparent{Angle::degrees(apparent_deg)};
        EXPECT_LT(true_altitude(0.0, apparent)->angle, apparent.angle);
    }
}

TEST(Ray, TrueZenithAngleGrowsWithApparentZenithAngle) {
    for (const double height_m : {0.0, 1000.0, 9000.0}) {
        const double last_deg = grazing_zenith(height_m).degrees() - 0.01;
        double before_deg = true_zenith_deg(height_m, 80.0);
        for (double apparent_deg = 80.1; apparent_deg < last_deg; apparent_deg += 0.1) {
            const double here_deg = true_zenith_deg(height_m, apparent_deg);
            ASSERT_GT(here_deg, before_deg) << height_m << " m, " << apparent_deg << " deg";
            before_deg = here_deg;
        }
    }
}

TEST(Ray, BendsLessFromHigherUp) {
    double below_deg = true_zenith_deg(0.0, 89.0);
    for (const double height_m : {500.0, 1000.0, 3000.0, 9000.0, 20000.0, 50000.0}) {
        const double here_deg = true_zenith_deg(height_m, 89.0);
        EXPECT_LT(here_deg, below_deg);
        below_deg = here_deg;
    }
}

TEST(Ray, ThatMeetsTheGroundComesFromNowhere) {
    EXPECT_FALSE(trace_to_space(0.0, Angle::degrees(90.1), {}, {}));
    EXPECT_FALSE(trace_to_space(4000.0, Angle::degrees(95.0), {}, {}));
    EXPECT_FALSE(trace_to_space(9000.0, Angle::degrees(179.0), {}, {}));
    EXPECT_FALSE(true_altitude(100.0, ApparentAltitude{Angle::degrees(-1.0)}));
}

TEST(Ray, GrazesTheGroundWhereBouguerSays) {
    for (const double height_m : {10.0, 500.0, 2000.0, 4000.0, 9000.0, 20000.0, 60000.0}) {
        const double grazing_deg = grazing_zenith(height_m).degrees();
        EXPECT_TRUE(trace_to_space(height_m, Angle::degrees(grazing_deg - 0.002), {}, {})) << height_m;
        EXPECT_FALSE(trace_to_space(height_m, Angle::degrees(grazing_deg + 0.002), {}, {})) << height_m;
    }
}

TEST(Ray, AtTheGroundTheGrazingRayIsLevel) {
    EXPECT_NEAR(grazing_zenith(0.0).degrees(), 90.0, 1e-6);
}

// A ray runs the same way down to its lowest point and up again: what it gathers and how it bends before and
// after add up to twice the half from the lowest point.
TEST(Ray, BendsAlikeBeforeAndAfterItsLowestPoint) {
    for (const double height_m : {4000.0, 9000.0, 30000.0}) {
        for (const double dip_deg : {0.5, 1.0, 1.5}) {
            const double lowest_m = tangent_height_m(height_m, 90.0 + dip_deg);
            const double both_deg =
                true_zenith_deg(height_m, 90.0 + dip_deg) + true_zenith_deg(height_m, 90.0 - dip_deg);
            EXPECT_NEAR(both_deg / 2.0, true_zenith_deg(lowest_m, 90.0), 1e-3) << height_m << " " << dip_deg;
        }
    }
}

TEST(Ray, GathersAlikeBeforeAndAfterItsLowestPoint) {
    for (const double height_m : {4000.0, 9000.0, 30000.0}) {
        for (const double dip_deg : {0.5, 1.0, 1.5}) {
            const double lowest_m = tangent_height_m(height_m, 90.0 + dip_deg);
            const double both = column(height_m, 90.0 + dip_deg) + column(height_m, 90.0 - dip_deg);
            EXPECT_NEAR(both / (2.0 * column(lowest_m, 90.0)), 1.0, 1e-3) << height_m << " " << dip_deg;
        }
    }
}

}  // namespace
}  // namespace gloam::air
