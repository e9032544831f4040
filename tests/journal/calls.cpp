#include <gmock/gmock.h>

#include <limits>

#include "journal/journal.hpp"
#include "made_calls.hpp"
#include "support/folder.hpp"

namespace gloam::journal {
namespace {

using gloam::test::Folder;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

class JournalCall : public ::testing::Test {
  protected:
    void SetUp() override { ASSERT_TRUE(store_trip(journal_, test::full_trip())); }

    /// Records a call that differs from the invented one in this.
    std::int64_t record(const CallRecord& call) { return record_call(journal_, call).value(); }

    Folder folder_;
    Journal journal_ = open_journal(folder_ / "journal.sqlite", test::kDuringTrip).value();
};

TEST_F(JournalCall, IsFoundAsItWasRecorded) {
    const CallRecord made = test::invented_call();
    const std::int64_t id = record(made);
    const StoredCall found = find_call(journal_, id).value().value();
    EXPECT_EQ(found.id, id);
    EXPECT_EQ(found.record.head.event.trip, "Invented week");
    EXPECT_EQ(found.record.head.event.place, "Salt Steps");
    EXPECT_EQ(found.record.head.event.date, made.head.event.date);
    EXPECT_EQ(found.record.head.event.kind, astro::EventKind::kDawn);
    EXPECT_EQ(found.record.head.look, Look::kEvening);
    EXPECT_EQ(found.record.head.made_at, made.head.made_at);
    EXPECT_EQ(found.record.head.answer, "provisional");
    EXPECT_EQ(found.record.head.odds, 0.4);
    EXPECT_EQ(found.record.head.threshold, 0.25);
    EXPECT_EQ(found.record.head.previous, std::nullopt);
    EXPECT_EQ(found.record.inputs, made.inputs);
    EXPECT_EQ(found.record.model_version, made.model_version);
    EXPECT_EQ(found.record.tables_hash, made.tables_hash);
    EXPECT_EQ(found.record.states, made.states);
    EXPECT_EQ(found.record.output, made.output);
}

TEST_F(JournalCall, KnowsTheRunsItStandsOn) {
    const StoredCall found = find_call(journal_, record(test::invented_call())).value().value();
    EXPECT_THAT(found.record.runs,
                ElementsAre(Field(&RunSeen::sha256, "aa11"), Field(&RunSeen::sha256, "bb22")));
    EXPECT_EQ(found.record.runs[0].source, "one model");
    EXPECT_EQ(found.record.runs[0].run_time, test::instant("2025-01-28T12:00:00Z"));
}

TEST_F(JournalCall, SharesARunWithTheNext) {
    record(test::invented_call());
    const StoredCall found = find_call(journal_, record(test::invented_call())).value().value();
    EXPECT_EQ(found.record.runs.size(), 2U);
}

TEST_F(JournalCall, MayHaveNoTripNoRunsAndNoStartLeft) {
    CallRecord call = test::invented_call();
    call.head.event.trip.reset();
    call.head.threshold = std::numeric_limits<double>::infinity();
    call.runs.clear();
    call.states.clear();
    const StoredCall found = find_call(journal_, record(call)).value().value();
    EXPECT_EQ(found.record.head.event.trip, std::nullopt);
    EXPECT_EQ(found.record.head.threshold, std::numeric_limits<double>::infinity());
    EXPECT_THAT(found.record.runs, IsEmpty());
    EXPECT_THAT(found.record.states, IsEmpty());
}

TEST_F(JournalCall, OfNoSuchNumberIsAbsent) {
    EXPECT_EQ(find_call(journal_, 17).value().has_value(), false);
}

TEST_F(JournalCall, IsTheLastOfItsEventByTheTimeItWasMade) {
    CallRecord call = test::invented_call();
    call.head.made_at = test::instant("2025-01-29T03:00:00Z");
    const std::int64_t later = record(call);
    record(test::invented_call());
    EXPECT_EQ(last_call(journal_, test::dawn_at_salt_steps()).value().value().id, later);
}

TEST_F(JournalCall, OfAnotherEventIsNotItsLast) {
    CallRecord call = test::invented_call();
    call.head.event.kind = astro::EventKind::kDusk;
    record(call);
    call = test::invented_call();
    call.head.event.trip.reset();
    record(call);
    EXPECT_FALSE(last_call(journal_, test::dawn_at_salt_steps()).value());
}

TEST_F(JournalCall, StandsInTheListOfItsTrip) {
    CallRecord call = test::invented_call();
    const std::int64_t evening = record(call);
    call.head.look = Look::kMorning;
    call.head.previous = evening;
    call.head.made_at = test::instant("2025-01-29T03:00:00Z");
    const std::int64_t morning = record(call);
    call.head.event.trip.reset();
    record(call);
    ASSERT_TRUE(
        record_overrule(journal_, morning, {test::instant("2025-01-29T03:05:00Z"), "stay", "drizzle"}));
    const std::vector<CallLine> lines = calls_of(journal_, "Invented week").value();
    ASSERT_EQ(lines.size(), 2U);
    EXPECT_EQ(lines[0].id, evening);
    EXPECT_THAT(lines[0].overrules, IsEmpty());
    EXPECT_EQ(lines[1].id, morning);
    EXPECT_EQ(lines[1].head.previous, evening);
    EXPECT_EQ(lines[1].overrules.at(0).answer, "stay");
}

TEST_F(JournalCall, KeepsEveryOverruleAndAmendmentInOrder) {
    const std::int64_t id = record(test::invented_call());
    const Instant at = test::instant("2025-01-29T03:05:00Z");
    ASSERT_TRUE(record_overrule(journal_, id, {at, "stay", "drizzle"}));
    ASSERT_TRUE(record_overrule(journal_, id, {at, "go", "it stopped"}));
    ASSERT_TRUE(amend_call(journal_, id, {at, "seen by a neighbour: class 3"}));
    const StoredCall found = find_call(journal_, id).value().value();
    EXPECT_THAT(found.overrules,
                ElementsAre(Field(&Overrule::reason, "drizzle"), Field(&Overrule::reason, "it stopped")));
    EXPECT_EQ(found.overrules[0].at, at);
    EXPECT_THAT(found.amendments, ElementsAre(Field(&Amendment::text, "seen by a neighbour: class 3")));
}

TEST_F(JournalCall, StaysWhenItsTripIsReplaced) {
    const std::int64_t id = record(test::invented_call());
    trip::Trip without_places = test::full_trip();
    without_places.places.clear();
    ASSERT_TRUE(store_trip(journal_, without_places));
    EXPECT_EQ(find_call(journal_, id).value().value().record.head.event.place, "Salt Steps");
}

/// What must be refused, and how.
struct BadCall {
    const char* name;
    void (*spoil)(CallRecord&);
    ErrorKind kind;
    const char* message;
};

class JournalBadCall : public JournalCall, public ::testing::WithParamInterface<BadCall> {};

TEST_P(JournalBadCall, IsRefusedAndNothingIsRecorded) {
    CallRecord call = test::invented_call();
    GetParam().spoil(call);
    const auto id = record_call(journal_, call);
    ASSERT_FALSE(id);
    EXPECT_EQ(id.error().kind, GetParam().kind);
    EXPECT_THAT(id.error().message, HasSubstr(GetParam().message));
    EXPECT_THAT(calls_of(journal_, "Invented week").value(), IsEmpty());
    EXPECT_EQ(record(test::invented_call()), 1);
}

constexpr auto kBad = ErrorKind::kBadInput;

INSTANTIATE_TEST_SUITE_P(
    , JournalBadCall,
    ::testing::Values(
        BadCall{"of_an_unknown_trip", [](CallRecord& call) { call.head.event.trip = "Nowhere"; },
                ErrorKind::kNotFound, "no trip 'Nowhere'"},
        BadCall{"of_no_place", [](CallRecord& call) { call.head.event.place.clear(); }, kBad, "no place"},
        BadCall{"without_an_answer", [](CallRecord& call) { call.head.answer.clear(); }, kBad, "no answer"},
        BadCall{"of_odds_past_one", [](CallRecord& call) { call.head.odds = 1.5; }, kBad, "odds of 1.5"},
        BadCall{"of_odds_not_a_number",
                [](CallRecord& call) { call.head.odds = std::numeric_limits<double>::quiet_NaN(); }, kBad,
                "odds of nan"},
        BadCall{"of_a_threshold_not_a_number",
                [](CallRecord& call) { call.head.threshold = std::numeric_limits<double>::quiet_NaN(); },
                kBad, "no number"},
        BadCall{"after_no_such_call", [](CallRecord& call) { call.head.previous = 99; }, ErrorKind::kNotFound,
                "no call 99"},
        BadCall{"of_a_run_without_a_hash", [](CallRecord& call) { call.runs[1].sha256.clear(); }, kBad,
                "no hash of a run"}),
    [](const auto& bad) { return std::string(bad.param.name); });

TEST_F(JournalCall, ThatIsNotThereCannotBeOverruledOrAmended) {
    const Instant at = test::kDuringTrip;
    EXPECT_EQ(record_overrule(journal_, 9, {at, "stay", "drizzle"}).error().kind, ErrorKind::kNotFound);
    EXPECT_EQ(amend_call(journal_, 9, {at, "words"}).error().kind, ErrorKind::kNotFound);
}

TEST_F(JournalCall, IsNotOverruledWithoutAReason) {
    const std::int64_t id = record(test::invented_call());
    EXPECT_EQ(record_overrule(journal_, id, {test::kDuringTrip, "stay", ""}).error().kind, kBad);
    EXPECT_THAT(find_call(journal_, id).value().value().overrules, IsEmpty());
}

TEST_F(JournalCall, LeavesRoomForWhatTheLeaderSawAndWentAgainst) {
    const EventKey event = test::dawn_at_salt_steps();
    const Instant at = test::instant("2025-01-29T03:00:00Z");
    ASSERT_TRUE(record_sighting(journal_, event, {at, "bank", 0.4}));
    ASSERT_TRUE(record_dismissal(journal_, event, {at, "tide", "we stand on the upper step"}));
    const std::vector<Sighting> sightings = sightings_of(journal_, event).value();
    ASSERT_EQ(sightings.size(), 1U);
    EXPECT_EQ(sightings[0].sign, "bank");
    EXPECT_EQ(sightings[0].likelihood_ratio, 0.4);
    EXPECT_EQ(sightings[0].at, at);
    const std::vector<Dismissal> dismissals = dismissals_of(journal_, event).value();
    ASSERT_EQ(dismissals.size(), 1U);
    EXPECT_EQ(dismissals[0].caution, "tide");
    EXPECT_EQ(dismissals[0].reason, "we stand on the upper step");
}

TEST_F(JournalCall, HasNothingBesideItAtAnotherEvent) {
    ASSERT_TRUE(record_sighting(journal_, test::dawn_at_salt_steps(), {test::kDuringTrip, "bank", 0.4}));
    EventKey other = test::dawn_at_salt_steps();
    other.kind = astro::EventKind::kDusk;
    EXPECT_THAT(sightings_of(journal_, other).value(), IsEmpty());
    other.trip = "Nowhere";
    EXPECT_THAT(dismissals_of(journal_, other).value(), IsEmpty());
}

TEST_F(JournalCall, IsNotGoneAgainstWithoutAReason) {
    const EventKey event = test::dawn_at_salt_steps();
    EXPECT_EQ(record_dismissal(journal_, event, {test::kDuringTrip, "tide", ""}).error().kind, kBad);
    EXPECT_EQ(record_sighting(journal_, event, {test::kDuringTrip, "bank", 0.0}).error().kind, kBad);
}

}  // namespace
}  // namespace gloam::journal
