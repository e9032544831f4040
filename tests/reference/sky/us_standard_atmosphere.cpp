// The US Standard Atmosphere 1976 against a table made from its defining constants by another program.
#include <gtest/gtest.h>

#include "air/standard_atmosphere.hpp"
#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"

namespace gloam::air {
namespace {

using test::ReferenceFile;
using test::Worst;

constexpr double kSeaLevelDensity_kg_m3 = 1.2250;

TEST(UsStandardAtmosphere, AgreesWithItsTableUpTo86Km) {
    const ReferenceFile file("us_standard_atmosphere_1976.csv");
    Worst temperature;
    Worst pressure;
    Worst density;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const std::string where = file.text(row, "z_km") + " km";
        const AirState air = standard_atmosphere(file.number(row, "z_km") * 1e3);
        temperature.add(100.0 * (air.temperature_k / file.number(row, "T_K") - 1.0), where);
        pressure.add(100.0 * (air.pressure_pa / (100.0 * file.number(row, "p_hPa")) - 1.0), where);
        density.add(
            100.0 * (air.relative_density * kSeaLevelDensity_kg_m3 / file.number(row, "rho_kg_m3") - 1.0),
            where);
    }
    temperature.report("US 1976 temperature", "%");
    pressure.report("US 1976 pressure", "%");
    density.report("US 1976 density", "%");
    EXPECT_EQ(temperature.count(), 59);
    EXPECT_LT(temperature.value(), 0.1);
    EXPECT_LT(pressure.value(), 0.1);
    EXPECT_LT(density.value(), 0.1);
}

}  // namespace
}  // namespace gloam::air
