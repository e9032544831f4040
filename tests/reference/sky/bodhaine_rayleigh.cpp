// Rayleigh optical depth against the first-principles method of Bodhaine, Wood, Dutton and Slusser 1999,
// computed by another program (formulas from memory, their constants seen in open code).
#include <gtest/gtest.h>

#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"
#include "sky/spectrum.hpp"

namespace gloam::sky {
namespace {

TEST(RayleighDepth, AgreesWithFirstPrinciples) {
    const test::ReferenceFile file("rayleigh_check.csv");
    test::Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        worst.add(100.0 * (rayleigh_optical_depth(file.number(row, "wl_nm")) /
                               file.number(row, "tau_sea_level_45deg") -
                           1.0),
                  file.text(row, "wl_nm") + " nm");
    }
    worst.report("Rayleigh depth, first principles", "%");
    EXPECT_EQ(worst.count(), 48);
    EXPECT_LT(worst.value(), 0.2);
}

}  // namespace
}  // namespace gloam::sky
