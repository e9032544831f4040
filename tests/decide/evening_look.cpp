#include "decide/evening_look.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace gloam::decide {
namespace {

constexpr SecondLook kUsual{};

// Worked examples, threshold .3, bother .03, alarm .02: what the second look may show is given there, not a
// Beta distribution.
EveningWorth worked(double odds, double mean_gain_after) {
    return {odds - 0.3, mean_gain_after - 0.03 - 0.02};
}

TEST(EveningAnswer, WaitsWhereTheSecondLookDecides) {  // .1 or .6, even
    const EveningWorth worth = worked(0.35, 0.5 * 0.3);
    EXPECT_NEAR(worth.commit, 0.05, 1e-12);
    EXPECT_NEAR(worth.wait, 0.10, 1e-12);
    EXPECT_EQ(evening_answer(worth), EveningAnswer::kProvisional);
}

TEST(EveningAnswer, WaitsThoughTheOddsAreFarUnderTheThreshold) {  // .05 in .7, .5 in .3
    const EveningWorth worth = worked(0.185, 0.3 * 0.2);
    EXPECT_NEAR(worth.commit, -0.115, 1e-12);
    EXPECT_NEAR(worth.wait, 0.01, 1e-12);
    EXPECT_EQ(evening_answer(worth), EveningAnswer::kProvisional);
}

TEST(EveningAnswer, IsOnWhereTheSecondLookWouldChangeLittle) {  // .85 in .9, .2 in .1
    const EveningWorth worth = worked(0.785, 0.9 * 0.55);
    EXPECT_NEAR(worth.commit, 0.485, 1e-12);
    EXPECT_NEAR(worth.wait, 0.445, 1e-12);
    EXPECT_EQ(evening_answer(worth), EveningAnswer::kOn);
}

TEST(EveningAnswer, IsSleepWhereNothingIsWorthMore) {
    EXPECT_EQ(evening_answer({-0.1, 0.0}), EveningAnswer::kSleep);
    EXPECT_EQ(evening_answer({0.0, -0.1}), EveningAnswer::kSleep);
}

TEST(EveningAnswer, HoldsAgainstTheThresholdAloneWhenNobodyCanLookAgain) {
    const SecondLook none{.possible = false};
    EXPECT_EQ(evening_answer(worth_of_evening(0.31, 0.3, none)), EveningAnswer::kOn);
    EXPECT_EQ(evening_answer(worth_of_evening(0.30, 0.3, none)), EveningAnswer::kSleep);
}

TEST(EveningAnswer, IsSleepWithNoStartLeft) {
    const double out_of_reach = std::numeric_limits<double>::infinity();
    EXPECT_EQ(evening_answer(worth_of_evening(0.98, out_of_reach, kUsual)), EveningAnswer::kSleep);
}

TEST(MeanGain, IsTheWorkedIntegral) {  // steadiness 4, threshold .3; given to 1e-4
    EXPECT_NEAR(mean_gain(0.25, 0.3, 4.0), 0.060025, 1e-4);
    EXPECT_NEAR(mean_gain(0.35, 0.3, 4.0), 0.113586, 1e-4);
}

TEST(MeanGain, IsThatOfAUniformSecondLook) {  // Beta(1, 1): mean of max(0, x - t) is (1 - t)^2 / 2
    EXPECT_NEAR(mean_gain(0.5, 0.3, 2.0), 0.5 * 0.7 * 0.7, 1e-12);
}

TEST(MeanGain, OfASteadyForecastIsWhatTheOddsAreAboveTheThreshold) {
    EXPECT_NEAR(mean_gain(0.5, 0.3, 1e7), 0.2, 1e-6);
    EXPECT_NEAR(mean_gain(0.2, 0.3, 1e7), 0.0, 1e-6);
}

TEST(MeanGain, HoldsAtTheEnds) {
    EXPECT_EQ(mean_gain(0.0, 0.3, 8.0), 0.0);
    EXPECT_EQ(mean_gain(1.0, 0.3, 8.0), 0.7);
    EXPECT_EQ(mean_gain(0.4, 0.0, 8.0), 0.4);
    EXPECT_EQ(mean_gain(0.4, 1.0, 8.0), 0.0);
    EXPECT_EQ(mean_gain(0.4, std::numeric_limits<double>::infinity(), 8.0), 0.0);
}

struct ForewarningCase {
    double bother;
    double steadiness;
    double odds;
};

class Forewarning : public ::testing::TestWithParam<ForewarningCase> {};

TEST_P(Forewarning, BeginsWhereTheTableSays) {  // threshold .3, the leader's alarm for nothing
    const auto [bother, steadiness, odds] = GetParam();
    EXPECT_NEAR(forewarning_odds(0.3, {true, steadiness, bother, 0.0}), odds, 1e-4);
}

INSTANTIATE_TEST_SUITE_P(
    Worked, Forewarning,
    ::testing::Values(ForewarningCase{0.02, 2.0, 0.0842}, ForewarningCase{0.02, 4.0, 0.1341},
                      ForewarningCase{0.02, 8.0, 0.1917}, ForewarningCase{0.05, 2.0, 0.1716},
                      ForewarningCase{0.05, 4.0, 0.2265}, ForewarningCase{0.05, 8.0, 0.2753}));

TEST(Forewarning, BeginsAtTheThresholdWhenNobodyCanLookAgain) {
    EXPECT_EQ(forewarning_odds(0.3, {.possible = false}), 0.3);
}

TEST(Forewarning, NeverComesWithNoStartLeft) {
    EXPECT_EQ(forewarning_odds(std::numeric_limits<double>::infinity(), kUsual), 1.0);
}

}  // namespace
}  // namespace gloam::decide
