// Twice the horizon refraction: how far the sun may sink before a cloud base loses it. Against an independent
// ray trace and against the reference numbers of docs/sky.md.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <utility>

#include "air/ray.hpp"
#include "air/standard_atmosphere.hpp"
#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"

namespace gloam::air {
namespace {

using test::ReferenceFile;
using test::Worst;

/// True depression of the sun whose ray reaches `height_m` after grazing the level `lowest_m`.
double depression_deg(double height_m, double lowest_m) {
    // Bouguer: r n sin z is constant along a ray, and sin z = 1 at its lowest point.
    const double sine = (kEarthRadius_m + lowest_m) * refractive_index(lowest_m) /
                        ((kEarthRadius_m + height_m) * refractive_index(height_m));
    const double apparent_rad = std::numbers::pi - std::asin(sine);
    constexpr double kClear_rad = 2e-5;  // a hair above the level, so that the trace does not meet it
    const auto zenith = trace_to_space(height_m, Angle::radians(apparent_rad - kClear_rad), {}, {});
    return zenith->degrees() - 90.0;
}

TEST(CloudBase, LosesTheSunWhereTheTableSays) {
    const ReferenceFile file("cloud_base_sun_loss.csv");
    Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        worst.add(depression_deg(file.number(row, "cloud_base_m"), 0.0) -
                      file.number(row, "sun_centre_depression_deg_refracted"),
                  file.text(row, "cloud_base_m") + " m");
    }
    worst.report("sun lost at a cloud base", "deg");
    EXPECT_EQ(worst.count(), 11);
    EXPECT_LT(worst.value(), 0.05);
}

TEST(CloudBase, LosesTheSunEarlierBehindTwoKilometresOfHaze) {
    const ReferenceFile file("cloud_base_sun_loss.csv");
    Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        if (file.number(row, "cloud_base_m") > 2000.0) {
            worst.add(depression_deg(file.number(row, "cloud_base_m"), 2000.0) -
                          file.number(row, "sun_centre_depression_ray_grazing_2km_layer_deg"),
                      file.text(row, "cloud_base_m") + " m");
        }
    }
    worst.report("sun lost behind 2 km of haze", "deg");
    EXPECT_EQ(worst.count(), 7);
    EXPECT_LT(worst.value(), 0.05);
}

TEST(CloudBase, SeesTheSunFarBelowTheHorizonFromHighUp) {
    Worst worst;
    for (const auto& [height_m, expected_deg] :
         {std::pair{0.0, 0.55}, {1.0e3, 1.66}, {4.0e3, 2.77}, {9.0e3, 3.86}, {20.0e3, 5.43}}) {
        worst.add(depression_deg(height_m, 0.0) - expected_deg, std::to_string(height_m) + " m");
    }
    worst.report("largest sun depression", "deg");
    EXPECT_LT(worst.value(), 0.03);
}

}  // namespace
}  // namespace gloam::air
