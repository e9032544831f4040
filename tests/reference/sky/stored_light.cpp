// Diffuse light between the stored atmospheres against that solved for the very atmosphere: what the tables
// cost where ozone and ground are not the stored ones.
#include <gtest/gtest.h>

#include <cstdio>
#include <string>

#include "reference/astro/worst.hpp"
#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

struct Direction {
    const char* name;
    double elevation_deg;
    double azimuth_deg;
};
constexpr Direction kZenith{"zenith", 90.0, 0.0};
constexpr Direction kSunSide{"sun side 10 deg high", 10.0, 0.0};
constexpr Direction kAntiSun{"away from the sun 10 deg high", 10.0, 180.0};

/// Worst errors of luminance (%) and of x over twilight.
struct Errors {
    test::Worst luminance;
    test::Worst x;
};

Errors errors_of(const Atmosphere& atmosphere) {
    const Air ours(test::tables(), atmosphere);
    Air exact = ours;
    exact.diffuse = solve_diffuse(test::tables().bands, test::tables().columns, atmosphere);
    Errors errors;
    for (const double sun_deg : {5.0, 0.0, -3.0, -5.0, -6.0}) {
        for (const Direction& at : {kZenith, kSunSide, kAntiSun}) {
            const Xyz seen = test::sky_light(ours, sun_deg, at.elevation_deg, at.azimuth_deg);
            const Xyz solved = test::sky_light(exact, sun_deg, at.elevation_deg, at.azimuth_deg);
            const std::string where = std::string(at.name) + ", sun " + std::to_string(sun_deg);
            errors.luminance.add(100.0 * (seen.y / solved.y - 1.0), where);
            errors.x.add(chromaticity(seen).x - chromaticity(solved).x, where);
        }
    }
    errors.luminance.report("luminance between stored atmospheres", "%");
    errors.x.report("x between stored atmospheres", "");
    return errors;
}

class OzoneAmount : public ::testing::TestWithParam<double> {};

TEST_P(OzoneAmount, ColoursTheSkyAsSolvedWithinAHundredthInX) {
    Atmosphere atmosphere;
    atmosphere.ozone_du = GetParam();
    const Errors errors = errors_of(atmosphere);
    EXPECT_LT(errors.x.value(), 0.01);
    EXPECT_LT(errors.luminance.value(), 3.0);
}

INSTANTIATE_TEST_SUITE_P(, OzoneAmount, ::testing::Values(235.0, 280.0, 400.0, 445.0),
                         [](const auto& du) { return std::to_string(static_cast<int>(du.param)) + "Du"; });

class GroundAlbedo : public ::testing::TestWithParam<double> {};

TEST_P(GroundAlbedo, LightsTheSkyAsSolvedWithin3Percent) {
    Atmosphere atmosphere;
    atmosphere.ground_albedo = GetParam();
    EXPECT_LT(errors_of(atmosphere).luminance.value(), 3.0);
}

INSTANTIATE_TEST_SUITE_P(, GroundAlbedo, ::testing::Values(0.06, 0.4), [](const auto& albedo) {
    return std::to_string(static_cast<int>(100.0 * albedo.param)) + "Percent";
});

// Snow and half again as much ozone together: each was stored alone.
TEST(OzoneOverSnow, LightsTheSkyAsSolvedWithin3Percent) {
    Atmosphere atmosphere;
    atmosphere.ozone_du = 400.0;
    atmosphere.ground_albedo = 0.8;
    EXPECT_LT(errors_of(atmosphere).luminance.value(), 3.0);
}

}  // namespace
}  // namespace gloam::sky
