#include "sky/beam.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::air_with_aerosol;
using test::beam_light;
using test::default_air;
using test::zenith_rad;

constexpr double kDegree_rad = 0.017453292519943295;

TEST(Beam, RedHighCloudKeepsLightTwoDegreesAfterSunset) {
    const Xyz light = beam_light(default_air(), 9000.0, -2.0);
    EXPECT_GT(light.y, 3000.0);
    EXPECT_GT(chromaticity(light).x, 0.5);
}

TEST(Beam, LowCloudIsDarkTwoDegreesAfterSunset) {
    EXPECT_LT(beam_light(default_air(), 1500.0, -2.0).y, 0.1);
}

// Up to the highest cloud. Higher up it need not rise: a ray that runs level in the ozone layer meets more
// ozone than one that starts below and passes it slantwise.
TEST(Beam, TransmissionRisesWithHeightUpToTheHighestCloud) {
    for (const double elevation_deg : {10.0, 2.0, 0.0, -1.0, -2.0, -3.0}) {
        Spectrum below = default_air().beam.transmission(0.0, zenith_rad(elevation_deg));
        for (double height_m = 100.0; height_m <= 12.0e3; height_m += 100.0) {
            const Spectrum here = default_air().beam.transmission(height_m, zenith_rad(elevation_deg));
            for (std::size_t b = 0; b < kBands; ++b) {
                ASSERT_GE(here[b], below[b]) << height_m << " m, " << elevation_deg << " deg, band " << b;
            }
            below = here;
        }
    }
}

TEST(Beam, LiesBetweenNothingAndAll) {
    for (double height_m = 0.0; height_m < 100.0e3; height_m += 1900.0) {
        for (double elevation_deg = -12.0; elevation_deg <= 90.0; elevation_deg += 0.5) {
            for (const double t : default_air().beam.transmission(height_m, zenith_rad(elevation_deg))) {
                ASSERT_GE(t, 0.0);
                ASSERT_LE(t, 1.0);
            }
        }
    }
}

TEST(Beam, DimsAsTheSunSinks) {
    for (const double height_m : {0.0, 1500.0, 4000.0, 9000.0}) {
        double before_lx = beam_light(default_air(), height_m, 20.0).y;
        for (double elevation_deg = 19.95; elevation_deg > -5.0; elevation_deg -= 0.05) {
            const double here_lx = beam_light(default_air(), height_m, elevation_deg).y;
            ASSERT_LE(here_lx, before_lx) << height_m << " m, " << elevation_deg << " deg";
            before_lx = here_lx;
        }
    }
}

TEST(Beam, ReddensAsTheSunSinks) {
    for (const double height_m : {1500.0, 4000.0, 9000.0}) {
        const double last_deg = -default_air().beam.columns().shadow_edge_rad(height_m) / kDegree_rad + 90.0;
        double before_x = chromaticity(beam_light(default_air(), height_m, 5.0)).x;
        for (double elevation_deg = 4.9; elevation_deg > last_deg; elevation_deg -= 0.1) {
            const double here_x = chromaticity(beam_light(default_air(), height_m, elevation_deg)).x;
            ASSERT_GT(here_x, before_x) << height_m << " m, " << elevation_deg << " deg";
            before_x = here_x;
        }
    }
}

TEST(Beam, LastsUntilTheUpperLimbIsGone) {
    const ColumnTable& columns = default_air().beam.columns();
    const double edge_rad = columns.shadow_edge_rad(9000.0);
    const auto total = [&](double beyond_deg) {
        double sum = 0.0;
        for (const double t : default_air().beam.transmission(9000.0, edge_rad + beyond_deg * kDegree_rad)) {
            sum += t;
        }
        return sum;
    };
    EXPECT_GT(total(0.0), total(0.2));
    EXPECT_GT(total(0.2), 0.0);
    EXPECT_EQ(total(0.31), 0.0);
}

TEST(Beam, HazeTakesMoreFromLowCloudThanFromHighCloud) {
    const Air haze = air_with_aerosol(0.25);
    const double low = beam_light(haze, 1500.0, 0.0).y / beam_light(default_air(), 1500.0, 0.0).y;
    const double high = beam_light(haze, 9000.0, 0.0).y / beam_light(default_air(), 9000.0, 0.0).y;
    EXPECT_LT(low, 0.5);
    EXPECT_GT(high, 0.9);
}

}  // namespace
}  // namespace gloam::sky
