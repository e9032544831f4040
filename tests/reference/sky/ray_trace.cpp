// Refraction and air mass seen from the ground against an earlier, independent ray trace through the same
// standard atmosphere (other integrator, refractivity of 550 nm at 15 C).
#include <gtest/gtest.h>

#include <array>

#include "air/ray.hpp"
#include "air/standard_atmosphere.hpp"
#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"

namespace gloam::air {
namespace {

using test::ReferenceFile;
using test::Worst;

double relative_density(double height_m) {
    return standard_atmosphere(height_m).relative_density;
}

/// Slant column of air over the vertical one.
double air_mass(double apparent_altitude_deg) {
    const std::array<Profile, 1> profiles{relative_density};
    std::array<double, 1> slant{};
    std::array<double, 1> vertical{};
    trace_to_space(0.0, Angle::degrees(90.0 - apparent_altitude_deg), profiles, slant);
    trace_to_space(0.0, Angle::degrees(0.0), profiles, vertical);
    return slant[0] / vertical[0];
}

double refraction_arcmin(double apparent_altitude_deg) {
    const auto zenith = trace_to_space(0.0, Angle::degrees(90.0 - apparent_altitude_deg), {}, {});
    return (zenith->degrees() - (90.0 - apparent_altitude_deg)) * 60.0;
}

class RayTraceTable : public ::testing::Test {
  protected:
    ReferenceFile file{"refraction_airmass_raytrace.csv"};
    double altitude_deg(std::size_t row) const { return file.number(row, "apparent_alt_deg"); }
};

TEST_F(RayTraceTable, GivesTheSameRefraction) {
    Worst low;
    Worst high;
    for (std::size_t row = 0; row < file.size(); ++row) {
        (altitude_deg(row) < 5.0 ? low : high)
            .add(refraction_arcmin(altitude_deg(row)) - file.number(row, "refraction_arcmin_raytrace_us76"),
                 file.text(row, "apparent_alt_deg") + " deg");
    }
    low.report("refraction below 5 deg", "arcmin");
    high.report("refraction from 5 deg", "arcmin");
    EXPECT_LT(low.value(), 0.3);
    EXPECT_LT(high.value(), 0.05);
}

TEST_F(RayTraceTable, GivesTheSameAirMass) {
    Worst low;
    Worst high;
    for (std::size_t row = 0; row < file.size(); ++row) {
        (altitude_deg(row) < 2.0 ? low : high)
            .add(100.0 * (air_mass(altitude_deg(row)) / file.number(row, "airmass_raytrace") - 1.0),
                 file.text(row, "apparent_alt_deg") + " deg");
    }
    low.report("air mass below 2 deg", "%");
    high.report("air mass from 2 deg", "%");
    EXPECT_LT(low.value(), 1.0);
    EXPECT_LT(high.value(), 0.2);
}

}  // namespace
}  // namespace gloam::air
