// Colour of twilight on a level plane against the measurements of Spitschan, Aguirre, Brainard and Sweeney
// 2016, Scientific Reports 6, 26756, and of a dissertation near the equator (data/reference/README.md). All
// weathers; standard deviation about .02 in x. A check of trend and bias, not of clear sky.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <stdexcept>
#include <string>
#include <vector>

#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"
#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::default_air;
using test::level_light;
using test::ReferenceFile;

constexpr double kHalfBin_deg = 1.0;  // bins of 2 deg are named by their lower edge

TEST(TwilightColour, IsTooLittleBlueAtTheCitySiteByNoMoreThanIsKnown) {
    const ReferenceFile city("twilight_spitschan2016_derived_city.csv");
    test::Worst worst;
    for (std::size_t row = 0; row < city.size(); ++row) {
        const double elevation_deg = city.number(row, "stated_elev_bin_lo_deg") + kHalfBin_deg;
        if (elevation_deg < -5.0 || elevation_deg > 1.0) {
            continue;
        }
        const Chromaticity ours = chromaticity(level_light(default_air(), elevation_deg));
        const double dx = ours.x - city.number(row, "x_fig3");
        const double dy = ours.y - city.number(row, "y_fig3");
        std::printf("city, %4.1f deg: model %.3f %.3f, measured %s %s, model less blue by %+.3f %+.3f\n",
                    elevation_deg, ours.x, ours.y, city.text(row, "x_fig3").c_str(),
                    city.text(row, "y_fig3").c_str(), dx, dy);
        worst.add(dx, std::to_string(elevation_deg) + " deg, x");
        worst.add(dy, std::to_string(elevation_deg) + " deg, y");
    }
    worst.report("twilight colour, city", "x, y");
    EXPECT_EQ(worst.count(), 8);
    EXPECT_LT(worst.value(), 0.035);
}

/// Measured chromaticity at an illuminance, between the two rows around it in the logarithm. Rows rise in
/// light.
Chromaticity rural_at(const ReferenceFile& rural, double lx) {
    for (std::size_t row = 1; row < rural.size(); ++row) {
        const double low_lx = rural.number(row - 1, "Ev_geom_mean_lx");
        const double high_lx = rural.number(row, "Ev_geom_mean_lx");
        if (lx >= low_lx && lx < high_lx) {
            const double share = std::log(lx / low_lx) / std::log(high_lx / low_lx);
            const auto between = [&](const char* column) {
                return (1.0 - share) * rural.number(row - 1, column) + share * rural.number(row, column);
            };
            return {between("x_fig3"), between("y_fig3")};
        }
    }
    throw std::runtime_error("no such light in the table");
}

/// The model's colour where its level light is `lx`, between -6 and +3 deg of sun.
Chromaticity model_at(const std::vector<Xyz>& falling, double lx) {
    for (std::size_t i = 1; i < falling.size(); ++i) {
        if (falling[i].y <= lx && falling[i - 1].y > lx) {
            const double share = std::log(falling[i - 1].y / lx) / std::log(falling[i - 1].y / falling[i].y);
            return chromaticity(falling[i - 1] * (1.0 - share) + falling[i] * share);
        }
    }
    throw std::runtime_error("no such light in the model");
}

// Its clock times are whole five minutes, so it is compared at equal light, too. It says what the others say.
TEST(TwilightColour, IsTooLittleBlueNearTheEquatorByNoMoreThanIsKnown) {
    const ReferenceFile equator("twilight_singapore_derived.csv");
    std::vector<Xyz> falling;
    for (double elevation_deg = 3.0; elevation_deg >= -6.0; elevation_deg -= 0.5) {
        falling.push_back(level_light(default_air(), elevation_deg));
    }
    test::Worst worst;
    for (std::size_t row = 0; row < equator.size(); ++row) {
        const double lx = equator.number(row, "illuminance_lx");
        if (lx > 1000.0) {
            continue;
        }
        const Chromaticity ours = model_at(falling, lx);
        const double dx = ours.x - equator.number(row, "x");
        std::printf("equator, %5.1f lx: model less blue by %+.3f in x\n", lx, dx);
        worst.add(dx, equator.text(row, "source_file"));
    }
    worst.report("twilight colour, equator", "x");
    EXPECT_EQ(worst.count(), 7);
    EXPECT_LT(worst.value(), 0.04);
}

// The stated elevations of the rural site are wrong, so it is compared at equal light. This is the known bias
// of the model: below 200 lx it is too little blue. Open; docs/sky.md.
TEST(TwilightColour, IsTooLittleBlueAtTheRuralSiteByNoMoreThanIsKnown) {
    const ReferenceFile rural("twilight_spitschan2016_derived_rural.csv");
    test::Worst worst;
    for (double elevation_deg = 1.0; elevation_deg >= -6.0; elevation_deg -= 1.0) {
        const Xyz light = level_light(default_air(), elevation_deg);
        const Chromaticity ours = chromaticity(light);
        const Chromaticity measured = rural_at(rural, light.y);
        std::printf("rural, %.4g lx: model %.3f %.3f, measured %.3f %.3f, model less blue by %+.3f %+.3f\n",
                    light.y, ours.x, ours.y, measured.x, measured.y, ours.x - measured.x,
                    ours.y - measured.y);
        worst.add(ours.x - measured.x, std::to_string(elevation_deg) + " deg, x");
        worst.add(ours.y - measured.y, std::to_string(elevation_deg) + " deg, y");
    }
    worst.report("twilight colour, rural", "x, y");
    EXPECT_LT(worst.value(), 0.04);
}

}  // namespace
}  // namespace gloam::sky
