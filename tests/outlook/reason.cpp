#include "outlook/reason.hpp"

#include <gmock/gmock.h>

namespace gloam::outlook {
namespace {

using weather::Band;

const Azimuth kSouthEast = Azimuth::degrees(112.5);

MemberVerdict verdict_of(Verdict verdict, Band canvas = Band::kHigh, Band blocker = Band::kLow) {
    MemberVerdict member;
    member.light.verdict = verdict;
    member.canvas = canvas;
    member.blocker = blocker;
    return member;
}

/// A reason as one member gives it.
Reason reason_of(const MemberVerdict& member) {
    return reasons_of(std::array{member}, kSouthEast).front();
}

MemberVerdict high_canopy(Verdict verdict, Band blocker) {
    MemberVerdict member = verdict_of(verdict, Band::kHigh, blocker);
    member.light.canvas_base_m = 8640.0;
    member.light.canvas_cover = 0.9;
    member.light.reach_m = 228.0e3;
    member.light.blocked_from_m = 96.0e3;
    member.light.blocked_to_m = 254.0e3;
    return member;
}

TEST(Reasons, GoFromTheMostFrequentToTheRarest) {
    std::vector<MemberVerdict> members(3, verdict_of(Verdict::kNoCanvas));
    members.insert(members.end(), 5, verdict_of(Verdict::kOpen));
    members.insert(members.end(), 2, verdict_of(Verdict::kHidden, Band::kLow));
    const auto reasons = reasons_of(members, kSouthEast);
    ASSERT_EQ(reasons.size(), 3U);
    EXPECT_EQ(reasons[0].verdict, Verdict::kOpen);
    EXPECT_EQ(reasons[1].verdict, Verdict::kNoCanvas);
    EXPECT_EQ(reasons[2].verdict, Verdict::kHidden);
    for (const Reason& reason : reasons) {
        EXPECT_EQ(reason.of, 10);
    }
    EXPECT_EQ(reasons[0].members, 5);
}

TEST(Reasons, OfFewerThanATenthOfTheMembersAreLeftOut) {
    std::vector<MemberVerdict> members(20, verdict_of(Verdict::kOpen));
    members.push_back(verdict_of(Verdict::kNoCanvas));
    EXPECT_EQ(reasons_of(members, kSouthEast).size(), 1U);
    members.push_back(verdict_of(Verdict::kNoCanvas));
    members.push_back(verdict_of(Verdict::kNoCanvas));
    EXPECT_EQ(reasons_of(members, kSouthEast).size(), 2U);
}

TEST(Reasons, OfATenthOfTheMembersAreTold) {
    std::vector<MemberVerdict> members(18, verdict_of(Verdict::kOpen));
    members.insert(members.end(), 2, verdict_of(Verdict::kNoCanvas));
    EXPECT_EQ(reasons_of(members, kSouthEast).size(), 2U);
}

TEST(Reasons, OfShutMembersAreToldApartByWhatShutsThem) {
    const std::array members{verdict_of(Verdict::kShut, Band::kHigh, Band::kLow),
                             verdict_of(Verdict::kShut, Band::kHigh, Band::kMiddle)};
    EXPECT_EQ(reasons_of(members, kSouthEast).size(), 2U);
}

TEST(Reasons, OfOpenMembersDoNotAskForABlocker) {
    const std::array members{verdict_of(Verdict::kOpen, Band::kHigh, Band::kLow),
                             verdict_of(Verdict::kOpen, Band::kHigh, Band::kMiddle)};
    EXPECT_EQ(reasons_of(members, kSouthEast).size(), 1U);
}

TEST(Reasons, HoldTheMiddleValuesOfTheirMembers) {
    std::vector<MemberVerdict> members(3, verdict_of(Verdict::kOpen));
    members[0].light.canvas_base_m = 7000.0;
    members[1].light.canvas_base_m = 9000.0;
    members[2].light.canvas_base_m = 8000.0;
    EXPECT_EQ(reasons_of(members, kSouthEast).front().canvas_base_m, 8000.0);
}

TEST(ReasonInWords, OfAnOpenPath) {
    EXPECT_EQ(to_text(reason_of(high_canopy(Verdict::kOpen, Band::kLow))),
              "High cloud at 8.6 km over nearly all the sky, and the sun's rays reach it: open for 230 km to "
              "the east-south-east");
}

TEST(ReasonInWords, OfAPathShutByLowerCloud) {
    EXPECT_EQ(
        to_text(reason_of(high_canopy(Verdict::kShut, Band::kMiddle))),
        "Middle cloud 100 to 250 km to the east-south-east keeps the light from the high cloud at 8.6 km");
}

TEST(ReasonInWords, OfACanopyThatShutsItsOwnLight) {
    EXPECT_EQ(
        to_text(reason_of(high_canopy(Verdict::kShut, Band::kHigh))),
        "High cloud at 8.6 km over nearly all the sky, but more of it 100 to 250 km to the east-south-east "
        "shuts off its light");
}

TEST(ReasonInWords, OfASkyHiddenByLowCloud) {
    MemberVerdict member = verdict_of(Verdict::kHidden, Band::kLow);
    member.light.canvas_cover = 0.78;
    EXPECT_EQ(to_text(reason_of(member)),
              "Low cloud covers 78 % of the sky overhead and, seen aslant, hides what is above it");
}

TEST(ReasonInWords, OfASkyWithoutCanvas) {
    EXPECT_EQ(to_text(reason_of(verdict_of(Verdict::kNoCanvas))),
              "Next to no middle or high cloud that could catch the light: a clear twilight at best");
}

TEST(ReasonInWords, OfBlockingCloudThatBeginsBehindTheViewerBeginsOverhead) {
    MemberVerdict member = high_canopy(Verdict::kShut, Band::kMiddle);
    member.light.blocked_from_m = -20.0e3;
    member.light.blocked_to_m = 2.0e3;
    EXPECT_THAT(to_text(reason_of(member)), ::testing::HasSubstr("0 to 10 km"));
}

}  // namespace
}  // namespace gloam::outlook
