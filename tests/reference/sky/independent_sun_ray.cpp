// The ray from high cloud to the sun against the numbers of an independent program of the same model.
#include <gtest/gtest.h>

#include "reference/astro/worst.hpp"
#include "sky/cloud_field.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

TEST(SunRay, OfHighCloudTwoDegreesAfterSunsetIsLowest196KilometresAway) {
    constexpr double kHigh_m = 9000.0;
    const SunRay ray(kHigh_m, test::tables().columns.apparent_zenith_rad(kHigh_m, test::zenith_rad(-2.0)));
    const double lowest_m = ray.tangent_path_m();
    test::Worst worst;
    worst.add(100.0 * (ray.height_at(lowest_m) / 6.36e3 - 1.0), "lowest height 6.36 km");
    worst.add(100.0 * (lowest_m / 196e3 - 1.0), "its distance 196 km");
    worst.add(100.0 * (2.0 * lowest_m / 391e3 - 1.0), "back at its own height at 391 km");
    worst.report("sun ray of high cloud", "%");
    EXPECT_LT(worst.value(), 1.0);
}

// Lowest height and its distance for elements of two heights, as the table of docs/sky.md has them (rounded
// there).
TEST(SunRay, OfTwoHeightsIsLowestWhereTheTableSays) {
    struct Case {
        double height_m, elevation_deg, lowest_km, away_km;
    };
    test::Worst height;
    test::Worst distance;
    for (const Case& c : {Case{4e3, -0.5, 3.98, 15}, Case{4e3, -1.0, 3.67, 70}, Case{4e3, -1.5, 2.98, 123},
                          Case{4e3, -2.0, 1.98, 174}, Case{4e3, -2.5, 0.74, 221}, Case{9e3, -1.0, 8.46, 88},
                          Case{9e3, -1.5, 7.59, 143}, Case{9e3, -2.0, 6.36, 196}, Case{9e3, -2.5, 4.86, 245},
                          Case{9e3, -3.0, 3.16, 291}, Case{9e3, -3.5, 1.34, 333}}) {
        const SunRay ray(c.height_m, test::tables().columns.apparent_zenith_rad(
                                         c.height_m, test::zenith_rad(c.elevation_deg)));
        const std::string where =
            std::to_string(c.height_m) + " m, " + std::to_string(c.elevation_deg) + " deg";
        height.add(ray.height_at(ray.tangent_path_m()) / 1e3 - c.lowest_km, where);
        distance.add(ray.tangent_path_m() / 1e3 - c.away_km, where);
    }
    height.report("lowest height of sun rays", "km");
    distance.report("distance of the lowest point", "km");
    EXPECT_LT(height.value(), 0.06);
    EXPECT_LT(distance.value(), 2.0);
}

}  // namespace
}  // namespace gloam::sky
