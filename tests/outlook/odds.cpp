#include "outlook/odds.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/check.hpp"

namespace gloam::outlook {
namespace {

constexpr std::array kClasses{OutcomeClass::kSlight, OutcomeClass::kFair, OutcomeClass::kGood,
                              OutcomeClass::kOutstanding};

TEST(Classes, BeginAtTheirLimits) {
    EXPECT_EQ(class_limit(OutcomeClass::kNothing), 0.0);
    EXPECT_EQ(class_limit(OutcomeClass::kSlight), 10.0);
    EXPECT_EQ(class_limit(OutcomeClass::kFair), 24.0);
    EXPECT_EQ(class_limit(OutcomeClass::kGood), 36.0);
    EXPECT_EQ(class_limit(OutcomeClass::kOutstanding), 50.0);
}

TEST(Classes, HaveTheNamesThatPeopleType) {
    EXPECT_EQ(name_of(OutcomeClass::kNothing), "nothing");
    EXPECT_EQ(name_of(OutcomeClass::kSlight), "slight");
    EXPECT_EQ(name_of(OutcomeClass::kFair), "fair");
    EXPECT_EQ(name_of(OutcomeClass::kGood), "good");
    EXPECT_EQ(name_of(OutcomeClass::kOutstanding), "outstanding");
}

TEST(Odds, OfAMemberAtTheLimitAreEven) {
    for (const OutcomeClass outcome : kClasses) {
        EXPECT_DOUBLE_EQ(odds_of(std::array{class_limit(outcome)}).of(outcome), 0.5);
    }
}

TEST(Odds, OfAMemberSixAboveTheLimitAreTheLogisticOfOne) {
    const double logistic_of_one = 1.0 / (1.0 + std::exp(-1.0));
    EXPECT_DOUBLE_EQ(odds_of(std::array{42.0}).good, logistic_of_one);
    EXPECT_DOUBLE_EQ(odds_of(std::array{30.0}).good, 1.0 - logistic_of_one);
}

TEST(Odds, AreTheMeanOverMembers) {
    const double low = odds_of(std::array{30.0}).good;
    const double high = odds_of(std::array{45.0}).good;
    EXPECT_DOUBLE_EQ(odds_of(std::array{30.0, 45.0}).good, 0.5 * (low + high));
}

TEST(Odds, AreNeverSurerThanTwoInAHundred) {
    const Odds none = odds_of(std::array{0.0, 0.0});
    const Odds all = odds_of(std::array{100.0, 100.0});
    for (const OutcomeClass outcome : {OutcomeClass::kGood, OutcomeClass::kOutstanding}) {
        EXPECT_DOUBLE_EQ(none.of(outcome), 0.02);
        EXPECT_DOUBLE_EQ(all.of(outcome), 0.98);
    }
}

TEST(Odds, OfAHigherClassAreNeverBetter) {
    for (double strength = 0.0; strength <= 100.0; strength += 2.5) {
        const Odds odds = odds_of(std::array{strength});
        EXPECT_GE(odds.slight, odds.fair);
        EXPECT_GE(odds.fair, odds.good);
        EXPECT_GE(odds.good, odds.outstanding);
    }
}

TEST(Odds, NeverFallWhenAMemberGetsStronger) {
    double before = 0.0;
    for (double strength = 0.0; strength <= 100.0; strength += 2.5) {
        const double here = odds_of(std::array{20.0, strength, 60.0}).good;
        EXPECT_GE(here, before);
        before = here;
    }
}

TEST(Odds, OfNothingOrBetterAreCertain) {
    EXPECT_EQ(odds_of(std::array{0.0}).of(OutcomeClass::kNothing), 1.0);
}

TEST(Odds, OfNoMembersAreAFaultOfTheProgram) {
    EXPECT_THROW(odds_of({}), InternalError);
}

TEST(Quantile, IsLinearBetweenOrderStatistics) {
    const std::vector<double> values{40.0, 10.0, 20.0, 30.0, 0.0};  // in no order
    EXPECT_DOUBLE_EQ(quantile(values, 0.0), 0.0);
    EXPECT_DOUBLE_EQ(quantile(values, 0.5), 20.0);
    EXPECT_DOUBLE_EQ(quantile(values, 0.6), 24.0);
    EXPECT_DOUBLE_EQ(quantile(values, 1.0), 40.0);
}

TEST(Quantile, OfOneValueIsThatValue) {
    for (const double share : {0.0, 0.1, 0.5, 1.0}) {
        EXPECT_EQ(quantile(std::array{7.0}, share), 7.0);
    }
}

TEST(Spread, HoldsMedianAndTenAndNinetyPercent) {
    std::vector<double> values;
    for (int i = 0; i <= 100; ++i) {
        values.push_back(100.0 - i);
    }
    const Spread spread = spread_of(values);
    EXPECT_DOUBLE_EQ(spread.median, 50.0);
    EXPECT_DOUBLE_EQ(spread.p10, 10.0);
    EXPECT_DOUBLE_EQ(spread.p90, 90.0);
}

}  // namespace
}  // namespace gloam::outlook
