// From layers to odds, on a synthetic ensemble of five for the equator's dawn.
#include "outlook/event_outlook.hpp"

#include <gmock/gmock.h>

#include <algorithm>

#include "support/equator_dawn.hpp"

namespace gloam::outlook {
namespace {

using synthetic::DawnFile;
using synthetic::Deck;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

const std::vector<Deck> kCanopy{{synthetic::kAt9km, synthetic::up_to_km(200.0, 0.8)}};

class Outlook : public ::testing::Test {
  protected:
    static void SetUpTestSuite() {
        outlook_ = synthetic::look_out_on(synthetic::dawn_file({.members = 5}, kCanopy));
    }
    static inline EventOutlook outlook_;
};

TEST_F(Outlook, HasEveryMemberAtEveryMoment) {
    EXPECT_EQ(outlook_.members.size(), 5U);
    EXPECT_EQ(outlook_.moments.size(), 58U);
    for (const MemberCourse& course : outlook_.members) {
        EXPECT_EQ(course.strengths.size(), outlook_.moments.size());
    }
}

TEST_F(Outlook, ReadsOddsAndSpreadOffItsMembers) {
    std::vector<double> peaks;
    for (const MemberCourse& course : outlook_.members) {
        peaks.push_back(course.after.strength);
    }
    EXPECT_EQ(outlook_.odds.good, odds_of(peaks).good);
    EXPECT_EQ(outlook_.after.median, spread_of(peaks).median);
    EXPECT_EQ(outlook_.after.p10, spread_of(peaks).p10);
    EXPECT_EQ(outlook_.after.p90, spread_of(peaks).p90);
}

TEST_F(Outlook, HasItsWindowAboutItsPeaks) {
    EXPECT_LE(outlook_.window.from, outlook_.window.to);
    EXPECT_GE(outlook_.window.from, outlook_.moments.front().instant);
    EXPECT_LT(outlook_.window.to, synthetic::at_sunrise());
}

TEST_F(Outlook, LooksTowardsTheSunWhereTheLightIsEvenOnBothSides) {
    EXPECT_NEAR(outlook_.window.azimuth.degrees(), 90.0, 45.0);
}

TEST_F(Outlook,
       HasTheWindowOfItsStrongerHalf) {  // two of five lit, late in the twilight; three grey all the time
    const std::vector<Deck> overcast{{synthetic::kAt1km, synthetic::everywhere(1.0)}};
    const EventOutlook divided = synthetic::look_out_on(synthetic::joined(
        {synthetic::dawn_file({.step_minutes = {synthetic::kTwilightOnly}, .members = 2}, kCanopy),
         synthetic::dawn_file({.step_minutes = {synthetic::kTwilightOnly}, .members = 3, .first_member = 3},
                              overcast)}));
    const auto sun_at_from = std::ranges::find_if(
        divided.moments, [&](const Moment& moment) { return moment.instant >= divided.window.from; });
    EXPECT_GT(sun_at_from->sun.elevation.degrees(), -4.0);
}

/// A high canopy on one side of the light path alone, low cloud before the glow on the other, for two
/// members.
EventOutlook canopy_on_one_side(bool north) {
    const auto cover = [north](double lat_deg, double lon_deg, double pressure_pa) {
        const double aside_deg = north ? lat_deg : -lat_deg;
        const bool canopy = pressure_pa == 300.0e2 && lon_deg < 2.0 && aside_deg > 0.3;
        const bool low = pressure_pa == 850.0e2 && aside_deg < -0.1;
        return canopy || low ? 0.9 : 0.0;
    };
    synthetic::SyntheticRun run{
        .run_time = synthetic::equator_dawn().run_time,
        .step_minutes = synthetic::kTwilightOnly,
        .grid = {.north_deg = 6.0, .west_deg = -8.0, .step_deg = 0.5, .rows = 25, .columns = 49},
        .levels_hpa = {850, 550, 300},
        .member = 1};
    const auto first = cover_on_levels(run, cover);
    run.member = 2;
    return synthetic::look_out_on(synthetic::joined({first, cover_on_levels(run, cover)}));
}

TEST_F(Outlook, LooksToTheSideWhereTheColourIs) {
    EXPECT_LT(canopy_on_one_side(true).window.azimuth.degrees(), 88.0);
    EXPECT_GT(canopy_on_one_side(false).window.azimuth.degrees(), 92.0);
}

TEST_F(Outlook, SaysWhatTheForecastDoesNot) {
    EXPECT_THAT(outlook_.missing, Contains(HasSubstr("other hours")));
    EXPECT_THAT(outlook_.missing, Contains(HasSubstr("heights of the levels")));
    EXPECT_THAT(outlook_.missing, Contains(HasSubstr("aerosol")));
    EXPECT_THAT(outlook_.missing, Not(Contains(HasSubstr("an ensemble"))));
    EXPECT_FALSE(outlook_.odds_by_assumed_band);
}

TEST_F(Outlook, IsTheSameEveryTime) {
    const EventOutlook again = synthetic::look_out_on(synthetic::dawn_file({.members = 5}, kCanopy));
    for (std::size_t i = 0; i < outlook_.members.size(); ++i) {
        for (std::size_t j = 0; j < outlook_.moments.size(); ++j) {
            EXPECT_EQ(again.members[i].strengths[j].value, outlook_.members[i].strengths[j].value);
            EXPECT_EQ(again.members[i].strengths[j].best_azimuth,
                      outlook_.members[i].strengths[j].best_azimuth);
        }
    }
    EXPECT_EQ(again.window.from, outlook_.window.from);
    EXPECT_EQ(to_text(again.reasons.front()), to_text(outlook_.reasons.front()));
}

TEST_F(Outlook, OfAnEventIsTheSameAmongOthersAsAlone) {
    const auto layers = synthetic::layers_in(synthetic::dawn_file({.members = 5}, kCanopy));
    EventRequest higher = synthetic::equator_dawn();
    higher.observer.height = HeightMsl{700.0};
    EventRequest snowy = synthetic::equator_dawn();
    snowy.ground = sky::Ground::kSnow;
    std::vector<EventSample> samples;
    for (const EventRequest& request :
         {higher, synthetic::equator_dawn(), snowy, synthetic::equator_dawn()}) {
        samples.push_back(sample_event(layers, request).value());
    }
    const auto together = look_out(synthetic::tables(), samples);
    for (std::size_t e = 0; e < samples.size(); ++e) {
        const auto alone = look_out(synthetic::tables(), samples[e]);
        for (std::size_t i = 0; i < alone.members.size(); ++i) {
            for (std::size_t j = 0; j < alone.moments.size(); ++j) {
                EXPECT_EQ(together[e].members[i].strengths[j].value, alone.members[i].strengths[j].value);
            }
        }
        EXPECT_EQ(to_text(together[e].reasons.front()), to_text(alone.reasons.front()));
    }
}

TEST_F(Outlook, LeavesOutTheHoursThatTheFileDoesNotServe) {
    const EventOutlook early = synthetic::look_out_on(
        synthetic::dawn_file({.step_minutes = {synthetic::kTwilightOnly}, .members = 5}, kCanopy));
    EXPECT_FALSE(early.gold);
    EXPECT_NEAR(early.moments.back().sun.elevation.degrees(), -0.5, 0.3);
    EXPECT_EQ(early.after.median, outlook_.after.median);  // the same field at either step
    EXPECT_THAT(early.missing, Contains(HasSubstr("the sun above 3 deg")));
}

TEST_F(Outlook, OfAFileThatEndsBeforeTheTwilightIsRefused) {
    const auto layers =
        synthetic::layers_in(synthetic::dawn_file({.step_minutes = {180}, .members = 2}, kCanopy));
    const auto sample = sample_event(layers, synthetic::equator_dawn());
    ASSERT_FALSE(sample);
    EXPECT_EQ(sample.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_THAT(sample.error().message, HasSubstr("does not serve"));
}

TEST_F(Outlook, OfAPlaceThatTheFileDoesNotCoverIsRefused) {
    const auto layers = synthetic::layers_in(synthetic::dawn_file({.members = 2}, kCanopy));
    EventRequest request = synthetic::equator_dawn();
    request.observer.at.lat_deg = 30.0;
    const auto sample = sample_event(layers, request);
    ASSERT_FALSE(sample);
    EXPECT_EQ(sample.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_THAT(sample.error().message, HasSubstr("does not cover the place"));
}

TEST_F(Outlook, OfATotalHasOddsForEachReading) {
    const EventOutlook total = synthetic::look_out_on(synthetic::dawn_file(
        {.step_minutes = {synthetic::kTwilightOnly}, .levels_hpa = {}, .members = 6, .total = true},
        kCanopy));
    ASSERT_TRUE(total.odds_by_assumed_band);
    EXPECT_LT((*total.odds_by_assumed_band)[0].good, (*total.odds_by_assumed_band)[2].good);
    EXPECT_THAT(total.missing, Contains(HasSubstr("cloud by layer")));
}

}  // namespace
}  // namespace gloam::outlook
