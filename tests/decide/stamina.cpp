// Worked tables: V and thresholds of m mornings left and b starts left, odds .1/.3/.6 in .40/.35/.25.
#include "decide/stamina.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace gloam::decide {
namespace {

std::vector<MorningAhead> mornings(std::size_t count) {
    return std::vector<MorningAhead>(count, usual_morning());
}

struct Row {
    std::size_t mornings;
    int starts;
    double value;
    double threshold;
};

class FreeStarts : public ::testing::TestWithParam<Row> {};

TEST_P(FreeStarts, AreWorthWhatTheTableSays) {
    const auto [count, starts, value, threshold] = GetParam();
    EXPECT_NEAR(value_of(mornings(count), starts, 0.0), value, 5e-5);
    EXPECT_NEAR(start_threshold(mornings(count - 1), starts, 0.0), threshold, 5e-5);
}

INSTANTIATE_TEST_SUITE_P(
    OfAWeek, FreeStarts,
    ::testing::Values(Row{1, 1, 0.2950, 0.0}, Row{1, 2, 0.2950, 0.0}, Row{1, 3, 0.2950, 0.0},
                      Row{2, 1, 0.3730, 0.2950}, Row{2, 2, 0.5900, 0.0}, Row{2, 3, 0.5900, 0.0},
                      Row{3, 1, 0.4297, 0.3730}, Row{3, 2, 0.7148, 0.2170}, Row{3, 3, 0.8850, 0.0},
                      Row{4, 1, 0.4723, 0.4297}, Row{4, 2, 0.7988, 0.2851}, Row{4, 3, 1.0379, 0.1702},
                      Row{5, 1, 0.5042, 0.4723}, Row{5, 2, 0.8672, 0.3265}, Row{5, 3, 1.1494, 0.2391},
                      Row{6, 1, 0.5282, 0.5042}, Row{6, 2, 0.9264, 0.3629}, Row{6, 3, 1.2351, 0.2823}));

class DearStarts : public ::testing::TestWithParam<Row> {};

TEST_P(DearStarts, AreWorthWhatTheTableSays) {  // a start costs .2 of a good dawn
    const auto [count, starts, value, threshold] = GetParam();
    EXPECT_NEAR(value_of(mornings(count), starts, 0.2), value, 5e-5);
    EXPECT_NEAR(start_threshold(mornings(count - 1), starts, 0.2), threshold, 5e-5);
}

INSTANTIATE_TEST_SUITE_P(OfAWeek, DearStarts,
                         ::testing::Values(Row{5, 1, 0.3162, 0.4882}, Row{5, 2, 0.4987, 0.3473},
                                           Row{5, 3, 0.6024, 0.2797}));

TEST(StartThreshold, IsTheCostAloneOnTheLastMorningAndWhereStartsSuffice) {
    EXPECT_DOUBLE_EQ(start_threshold({}, 1, 0.25), 0.25);
    EXPECT_DOUBLE_EQ(start_threshold(mornings(3), 4, 0.25), 0.25);
    EXPECT_DOUBLE_EQ(start_threshold(mornings(3), 1000000, 0.25), 0.25);
}

TEST(StartThreshold, IsOutOfReachWithNoStartLeft) {
    EXPECT_TRUE(std::isinf(start_threshold(mornings(2), 0, 0.25)));
    EXPECT_TRUE(std::isinf(start_threshold(mornings(2), -1, 0.25)));
}

TEST(StartThreshold, RisesWithMorningsLeftAndFallsWithStartsLeft) {
    for (std::size_t ahead = 1; ahead < 8; ++ahead) {
        for (int starts = 1; starts < 6; ++starts) {
            EXPECT_LE(start_threshold(mornings(ahead - 1), starts, 0.3),
                      start_threshold(mornings(ahead), starts, 0.3) + 1e-12);
            EXPECT_GE(start_threshold(mornings(ahead), starts, 0.3) + 1e-12,
                      start_threshold(mornings(ahead), starts + 1, 0.3));
        }
    }
}

TEST(StartThreshold, HoldsBackForAMorningForecastToBeGreat) {
    const MorningAhead great{{0.9, 1.0}};
    const MorningAhead poor{{0.05, 1.0}};
    EXPECT_NEAR(start_threshold(std::array{great}, 1, 0.3), 0.9, 1e-12);
    EXPECT_NEAR(start_threshold(std::array{poor}, 1, 0.3), 0.3, 1e-12);
}

}  // namespace
}  // namespace gloam::decide
