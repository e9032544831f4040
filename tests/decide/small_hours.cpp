// What the small hours add: the leader's look, the steady hand, who is called.
#include <gmock/gmock.h>

#include <cmath>

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
    EXPECT_GT(held_odds(0.27, Decision::kGo), 0.3);
    EXPECT_LT(held_odds(0.24, Decision::kGo), 0.3);
    EXPECT_LT(held_odds(0.33, Decision::kStay), 0.3);
    EXPECT_GT(held_odds(0.36, Decision::kStay), 0.3);
}

TEST(SteadyHand, LeavesOddsAloneWhereNothingWasAnnounced) {
    EXPECT_EQ(held_odds(0.31, std::nullopt), 0.31);
    EXPECT_EQ(held_odds(0.31, Decision::kLookAgain), 0.31);
}

std::vector<PartyGuest> guests() {
    return {{"A", 0.2}, {"B", 0.3}, {"C", 0.4}, {"D", 0.5}, {"E", 0.6}};
}

TEST(Party, IsThoseWhoseOwnThresholdIsPassed) {
    const Party party = party_at(0.45, guests());
    EXPECT_THAT(party.called, ElementsAre("A", "B", "C"));
    EXPECT_THAT(party.asleep, ElementsAre("D", "E"));
}

TEST(Party, LeavesThoseWhoOptedOutAsleep) {
    auto some = guests();
    some[0].opted_out = true;
    EXPECT_THAT(party_at(0.45, some).called, ElementsAre("B", "C"));
}

TEST(PartyThreshold, IsWhereTheLeastPartyIsReached) {
    EXPECT_EQ(party_threshold(guests(), 3), 0.4);
    EXPECT_EQ(party_threshold(guests(), 0), 0.2);
    EXPECT_TRUE(std::isinf(party_threshold(guests(), 6)));
    EXPECT_TRUE(std::isinf(party_threshold({}, 1)));
}

}  // namespace
}  // namespace gloam::decide
