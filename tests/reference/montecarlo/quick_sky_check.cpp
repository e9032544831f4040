// A few skies of src/sky against the Monte Carlo solver, for every change; all of them: sky_check.cpp.
#include <gtest/gtest.h>

#include <cstdio>

#include "reference/montecarlo/sky_comparison.hpp"

namespace gloam::montecarlo {
namespace {

TEST(FastSky, IsWithinAnEighthOfTheMonteCarloSky) {
    constexpr std::array<double, 3> kFewSuns_deg{5.0, 0.0, -3.0};
    constexpr std::array<Direction, 3> kFewDirections{kDirections[0], kDirections[3], kDirections[7]};
    const auto exact = monte_carlo_sky(0.10, {}, kFewSuns_deg, kFewDirections, 8, 1);
    const Distance found = distance(exact, fast_sky(0.10, kFewSuns_deg, kFewDirections));
    std::printf("fast sky off by %.1f %% in the median, %.1f %% at most (%s)\n", found.median_percent,
                found.worst_percent, found.worst_where.c_str());
    EXPECT_LT(found.median_percent, 5.0);
    EXPECT_LT(found.worst_percent, 12.0);
    EXPECT_LT(found.worst_colour, 0.01);
}

}  // namespace
}  // namespace gloam::montecarlo
