#include "sky/elementary.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace gloam::sky {
namespace {

/// Greatest error of `ours` against `exact` from `low` to `high`, relative where `relative`.
template <class Ours, class Exact>
double worst(double low, double high, bool relative, const Ours& ours, const Exact& exact) {
    constexpr int kSteps = 200'000;
    double most = 0.0;
    for (int i = 0; i <= kSteps; ++i) {
        const auto x = static_cast<float>(low + (high - low) * i / kSteps);
        const double truth = exact(static_cast<double>(x));
        const double error = std::abs(static_cast<double>(ours(x)) - truth);
        const double counted = relative ? error / std::abs(truth) : error;
        if (!std::isfinite(counted)) {
            return HUGE_VAL;
        }
        most = std::max(most, counted);
    }
    return most;
}

TEST(Elementary, LogarithmIsWithinTwoMillionths) {
    EXPECT_LT(
        worst(
            1e-6, 2.0, false, [](float x) { return logarithm(x); }, [](double x) { return std::log(x); }),
        2e-6);
    EXPECT_EQ(logarithm(1.0F), 0.0F);
}

TEST(Elementary, CubeRootIsWithinAMillionth) {
    EXPECT_LT(
        worst(
            1e-4, 3.0, true, [](float x) { return cube_root(x); }, [](double x) { return std::cbrt(x); }),
        1e-6);
    EXPECT_LT(
        worst(
            3.0, 1e6, true, [](float x) { return cube_root(x); }, [](double x) { return std::cbrt(x); }),
        1e-6);
}

TEST(Elementary, ArcSineAndSineAreWithinAMillionth) {
    EXPECT_LT(
        worst(
            -0.6, 0.6, false, [](float x) { return arc_sine(x); }, [](double x) { return std::asin(x); }),
        1e-6);
    EXPECT_LT(worst(
                  -0.8, 0.8, false, [](float x) { return sine(x); }, [](double x) { return std::sin(x); }),
              1e-6);
}

TEST(Elementary, AngleIsThatOfThePointAllRoundTheUpperHalf) {
    EXPECT_LT(worst(
                  0.0, 3.14159, false,
                  [](float turn) { return angle_of(3.0F * std::cos(turn), 3.0F * std::sin(turn)); },
                  [](double turn) { return turn; }),
              3e-6);
    EXPECT_FALSE(std::isnan(angle_of(0.0F, 0.0F)));
}

}  // namespace
}  // namespace gloam::sky
