// What the small hours add: the leader's look, the steady hand, who is called.
#include <gmock/gmock.h>

#include "decide/party.hpp"
#include "decide/seen_sign.hpp"
#include "decide/steady_hand.hpp"

namespace gloam::decide {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

TEST(SeenSign, ChangesOddsAsWorked) {
    EXPECT_NEAR(odds_after(0.35, seen_sign("stars-low").value().likelihood_ratio), 0.573770, 1e-6);
    EXPECT_NEAR(odds_after(0.35, seen_sign("no-stars").value().likelihood_ratio), 0.177215, 1e-6);
    EXPECT_NEAR(odds_after(0.60, seen_sign("drizzle").value().likelihood_ratio), 0.230769, 1e-6);
}

TEST(SeenSign, NeverMakesACertainty) {
    EXPECT_EQ(odds_after(0.98, 2.5), 0.98);
    EXPECT_EQ(odds_after(0.02, 0.2), 0.02);
}

TEST(SeenSign, ThatIsUnknownIsRefusedWithTheWords) {
    const auto sign = seen_sign("nice");
    ASSERT_FALSE(sign);
    EXPECT_THAT(sign.error().hint, HasSubstr("stars-low"));
}

TEST(SteadyHand, TurnsAnAnnouncedAnswerRoundOnlyPastTheMargin) {
    EXPECT_EQ(steady_answer(0.27, 0.3, Decision::kGo), Decision::kGo);
    EXPECT_EQ(steady_answer(0.24, 0.3, Decision::kGo), Decision::kStay);
    EXPECT_EQ(steady_answer(0.33, 0.3, Decision::kStay), Decision::kStay);
    EXPECT_EQ(steady_answer(0.36, 0.3, Decision::kStay), Decision::kGo);
}

TEST(SteadyHand, HoldsAgainstTheThresholdWhereNothingWasAnnounced) {
    EXPECT_EQ(steady_answer(0.31, 0.3, std::nullopt), Decision::kGo);
    EXPECT_EQ(steady_answer(0.30, 0.3, std::nullopt), Decision::kStay);
}

std::vector<PartyGuest> guests() {
    return {{"A", 0.2}, {"B", 0.3}, {"C", 0.4}, {"D", 0.5}, {"E", 0.6}};
}

TEST(Party, IsThoseWhoseOwnThresholdIsPassed) {
    const Party party = party_at(0.45, guests(), 3);
    EXPECT_THAT(party.called, ElementsAre("A", "B", "C"));
    EXPECT_THAT(party.asleep, ElementsAre("D", "E"));
    EXPECT_TRUE(party.goes);
}

TEST(Party, BelowTheLeastPartyDoesNotGo) {
    EXPECT_FALSE(party_at(0.45, guests(), 4).goes);
    EXPECT_FALSE(party_at(0.1, guests(), 0).goes);
}

TEST(Party, LeavesThoseWhoOptedOutAsleep) {
    auto some = guests();
    some[0].opted_out = true;
    EXPECT_THAT(party_at(0.45, some, 1).called, ElementsAre("B", "C"));
}

}  // namespace
}  // namespace gloam::decide
