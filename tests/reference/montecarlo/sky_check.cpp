// The clear sky of src/sky against the Monte Carlo solver, which shares nothing with it but the spectra.
// Writes the tables of docs/sky-check.md to the build folder.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <fstream>

#include "reference/montecarlo/sky_check_report.hpp"

namespace gloam::montecarlo {
namespace {

constexpr unsigned kThreads = 2;

const std::vector<Compared>& skies() {
    static const std::vector<Compared> kSkies = [] {
        std::vector<Compared> made;
        for (const double depth : {0.10, 0.03, 0.25}) {
            made.push_back({depth, monte_carlo_sky(depth, {}, kSuns_deg, kDirections, 1, kThreads),
                            fast_sky(depth, kSuns_deg, kDirections)});
        }
        return made;
    }();
    return kSkies;
}

constexpr std::array<double, 4> kFewSuns_deg{5.0, 0.0, -2.0, -4.0};

/// The exact sky first, then what solvers would say that simplify, at fewer suns.
const std::vector<Simplified>& simplified() {
    const auto made = [](const Again& again) {
        return monte_carlo_sky(0.10, again, kFewSuns_deg, kDirections, 2, kThreads);
    };
    static const std::vector<Simplified> kAll{
        {"exactly", made({})},
        {"to degree 4 everywhere", made({4, 4})},
        {"as in src/sky (no Monte Carlo)", fast_sky(0.10, kFewSuns_deg, kDirections)},
        {"isotropically", made({0, 0})},
        {"to degree 2 everywhere", made({2, 2})},
        {"to degree 4 near the viewer, isotropically deeper", made({4, 0})},
        {"to degree 6 near the viewer, to degree 2 deeper", made({6, 2})},
        {"exactly near the viewer, isotropically deeper", made({Again::kExact, 0})}};
    return kAll;
}

const std::vector<Compared>& levels() {
    static const std::vector<Compared> kLevels = [] {
        std::vector<double> suns_deg;
        for (double sun_deg = 10.0; sun_deg >= -12.0; sun_deg -= 1.0) {
            suns_deg.push_back(sun_deg);
        }
        std::vector<Compared> made;
        for (const double depth : {0.10, 0.05, 0.20}) {
            made.push_back(
                {depth, monte_carlo_level(depth, suns_deg, kThreads), fast_level(depth, suns_deg)});
        }
        return made;
    }();
    return kLevels;
}

// The target is 10 % in the median and 25 % at most; it is met with room to spare, which is held here.
TEST(SkyCheck, EverySkyIsWithinFivePercentInTheMedianAndTwelveAtMost) {
    for (const Compared& sky : skies()) {
        const Distance found = distance(sky.monte_carlo, sky.fast);
        EXPECT_LT(found.median_percent, 5.0) << sky.aerosol_depth_550;
        EXPECT_LT(found.worst_percent, 12.0) << sky.aerosol_depth_550 << " " << found.worst_where;
        EXPECT_LT(found.worst_colour, 0.015) << sky.aerosol_depth_550 << " " << found.worst_colour_where;
    }
}

TEST(SkyCheck, FastSkyIsWhatScatteringToDegreeFourGives) {
    const Distance found = distance(simplified()[1].lights, simplified()[2].lights);
    EXPECT_LT(found.median_percent, 1.5);
    EXPECT_LT(found.worst_percent, 6.0);
}

TEST(SkyCheck, OnlyTheScatteringNearTheViewerMustBeExact) {
    const Distance found = distance(simplified()[0].lights, simplified().back().lights);
    EXPECT_LT(found.median_percent, 2.0);
    EXPECT_LT(found.worst_percent, 8.0);
}

TEST(SkyCheck, LevelLightIsWithinThreePercentDownToTheEndOfCivilTwilight) {
    for (const Compared& level : levels()) {
        for (std::size_t i = 0; i < level.fast.size() && level.fast[i].sun_deg >= -6.0; ++i) {
            const double ratio = level.fast[i].amount.value / level.monte_carlo[i].amount.value;
            EXPECT_NEAR(ratio, 1.0, 0.03) << level.aerosol_depth_550 << " " << level.fast[i].sun_deg;
            EXPECT_NEAR(level.fast[i].colour.x, level.monte_carlo[i].colour.x, 0.005);
        }
    }
}

TEST(SkyCheck, WritesItsReport) {
    std::string report = "## Clear sky\n\n" + summary_table(skies());
    for (const Compared& sky : skies()) {
        report += fmt::format("\n### Fast over Monte Carlo, AOD {:.2f}\n\n", sky.aerosol_depth_550) +
                  ratio_table(sky);
    }
    report += "\n## Why\n\n" + simplified_table(simplified());
    for (const Compared& level : levels()) {
        report += fmt::format("\n## Level illuminance, AOD {:.2f}\n\n", level.aerosol_depth_550) +
                  level_table(level);
    }
    report += "\n## Every sky, AOD 0.10\n\n" + sky_table(skies()[0]);
    std::ofstream file(SKY_CHECK_REPORT);
    file << report;
    ASSERT_TRUE(file.flush()) << SKY_CHECK_REPORT;
}

}  // namespace
}  // namespace gloam::montecarlo
