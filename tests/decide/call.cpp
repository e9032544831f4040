#include "decide/call.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <limits>

namespace gloam::decide {
namespace {

using ::testing::HasSubstr;

TEST(Threshold, IsOneInStartsPlusOne) {
    for (const double starts : {0.0, 0.5, 1.0, 3.0, 9.0, 100.0}) {
        EXPECT_DOUBLE_EQ(threshold_for(starts).value(), 1.0 / (starts + 1.0));
    }
}

TEST(Threshold, OfWhoSaidNothingIsAThirdForADawnAndASeventhForADusk) {
    EXPECT_DOUBLE_EQ(threshold_for(kStartsForOneDawn).value(), 1.0 / 3.0);
    EXPECT_DOUBLE_EQ(threshold_for(kStartsForOneDusk).value(), 1.0 / 7.0);
}

TEST(Threshold, RefusesWhatNobodyCanMean) {
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    for (const double starts : {-1.0, -1e-9, 100.5, 1e9, kInfinity, -kInfinity, std::nan("")}) {
        const auto threshold = threshold_for(starts);
        ASSERT_FALSE(threshold) << starts;
        EXPECT_EQ(threshold.error().kind, ErrorKind::kBadInput);
        EXPECT_EQ(threshold.error().where, "starts_for_one");
        EXPECT_THAT(threshold.error().hint, HasSubstr("0 to 100"));
    }
}

TEST(Decide, GoesOnlyAboveTheThreshold) {
    EXPECT_EQ(decide({0.34, {}}, 1.0 / 3.0).decision, Decision::kGo);
    EXPECT_EQ(decide({0.25, {}}, 0.25).decision, Decision::kStay);
    EXPECT_EQ(decide({0.24, {}}, 0.25).decision, Decision::kStay);
}

TEST(Decide, StaysEvenForNoStartsAtAllSinceOddsAreNeverOne) {
    EXPECT_EQ(decide({0.98, {}}, threshold_for(0.0).value()).decision, Decision::kStay);
}

TEST(Decide, TellsWhatTheOddsWereHeldAgainst) {
    const Call call = decide({0.4, {}}, 0.25);
    EXPECT_EQ(call.odds, 0.4);
    EXPECT_EQ(call.threshold, 0.25);
}

TEST(Decide, LooksAgainWhenReadingsDisagree) {
    EXPECT_EQ(decide({0.4, std::array{0.02, 0.5, 0.7}}, 0.33).decision, Decision::kLookAgain);
    EXPECT_EQ(decide({0.3, std::array{0.02, 0.1, 0.7}}, 0.33).decision, Decision::kLookAgain);
}

TEST(Decide, AnswersWhenAllReadingsAgree) {
    EXPECT_EQ(decide({0.5, std::array{0.4, 0.5, 0.6}}, 0.33).decision, Decision::kGo);
    EXPECT_EQ(decide({0.1, std::array{0.02, 0.1, 0.2}}, 0.33).decision, Decision::kStay);
}

TEST(Decision, HasTheNameThatJsonPrints) {
    EXPECT_EQ(name_of(Decision::kGo), "go");
    EXPECT_EQ(name_of(Decision::kStay), "stay");
    EXPECT_EQ(name_of(Decision::kLookAgain), "look_again");
}

}  // namespace
}  // namespace gloam::decide
