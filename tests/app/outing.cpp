// Two looks at a real dawn of the stored forecast, for an invented trip.
#include <gmock/gmock.h>

#include "app/outing_journal.hpp"
#include "app/outing_replay.hpp"
#include "app/real_place.hpp"
#include "app/text_file.hpp"
#include "support/folder.hpp"

namespace gloam::app {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

/// Half past four in the morning of the dawn, Rome.
const Instant kSmallHours = parse_rfc3339("2025-01-29T03:30:00Z").value();

/// The dawn with the invented trip laid over its inputs.
const EventInputs& dawn() {
    static const EventInputs kDawn = [] {
        EventInputs inputs = inputs_for("37.07,15.29,4");
        inputs.place.name = "Salt Steps";
        return inputs;
    }();
    return kDawn;
}

const outlook::EventSample& sampled() {
    static const outlook::EventSample kSample =
        outlook::sample_event(dawn().layers, dawn().request()).value();
    return kSample;
}

trip::Trip invented_trip() {
    trip::Trip trip;
    trip.name = "Invented week";
    trip.zone = "Europe/Rome";
    trip.start = parse_civil_date("2025-01-25").value();
    trip.end = parse_civil_date("2025-02-01").value();
    trip.group.size = 6;
    trip.group.starts_for_one_dawn = 4.0;
    trip::Place place;
    place.name = "Salt Steps";
    place.at = {37.07, 15.29};
    trip::AccessLeg walk;
    walk.name = "path";
    walk.distance_m = 1200.0;
    place.access = {walk};
    trip.places = {place};
    return trip;
}

/// The basis of an evening's look without a journal.
OutingBasis basis(OutingLook look = OutingLook::kEvening) {
    OutingBasis basis{
        .look = look, .now = look == OutingLook::kEvening ? kEvening : kSmallHours, .place = dawn().place};
    basis.trip = invented_trip();
    basis.date = dawn().date;
    basis.starts_for_one = 4.0;
    basis.source = dawn().forecast.source;
    basis.run_time = dawn().forecast.run_time;
    return basis;
}

OutingReport outing(const OutingBasis& basis) {
    return make_outing(tables(), basis, sampled()).value();
}

TEST(Outing, OfAnEveningIsOneOfThreeAnswers) {
    const OutingReport report = outing(basis());
    EXPECT_NEAR(report.cost, 0.2, 1e-12);
    EXPECT_EQ(report.threshold, report.cost) << "nobody counts starts";
    EXPECT_THAT(report.answer, ::testing::AnyOf("on", "provisional", "sleep"));
    EXPECT_THAT(to_text(report),
                AllOf(HasSubstr("Salt Steps. Evening look, 21:00"), HasSubstr("call time: wake"),
                      HasSubstr("path, 27 min in the dark"), HasSubstr("sunrise")));
}

TEST(Outing, WithOneStartLeftAndMorningsAheadAsksForMore) {
    OutingBasis counted = basis();
    counted.trip->group.starts_left = 2;
    counted.starts_spent = 1;
    const OutingReport report = outing(counted);
    EXPECT_EQ(report.starts_left, 1);
    EXPECT_EQ(report.mornings_ahead, 3);
    // Four mornings, one start, cost .2: V(3, 1) of the worked recursion.
    EXPECT_GT(report.threshold, 0.35);
    EXPECT_THAT(to_text(report),
                HasSubstr("the rest is kept for better mornings (1 start left, 3 mornings after this one)"));
}

TEST(Outing, WithNoStartLeftSleeps) {
    OutingBasis spent = basis();
    spent.trip->group.starts_left = 2;
    spent.starts_spent = 2;
    const OutingReport report = outing(spent);
    EXPECT_EQ(report.answer, "sleep");
    EXPECT_THAT(to_text(report), HasSubstr("No early start is left."));
}

TEST(Outing, InTheSmallHoursHoldsToWhatWasAnnounced) {
    OutingBasis morning = basis(OutingLook::kMorning);
    morning.looks_again = false;
    const double odds = outing(morning).odds;
    morning.starts_for_one = 1.0 / (odds + 0.03) - 1.0;  // a threshold 3 points above the odds
    EXPECT_EQ(outing(morning).answer, "stay");
    morning.before = CalledBefore{7, OutingLook::kEvening, kEvening, "on", 0.5};
    EXPECT_EQ(outing(morning).answer, "go");
    EXPECT_THAT(to_text(outing(morning)), HasSubstr("Before: on at 21:00 on 2025-01-28, 50 %"));
}

TEST(Outing, TakesWhatTheLeaderSawIntoTheOdds) {
    OutingBasis morning = basis(OutingLook::kMorning);
    morning.seen = "drizzle";
    const OutingReport report = outing(morning);
    EXPECT_LT(report.odds, report.forecast_odds);
    EXPECT_THAT(to_text(report), HasSubstr("you saw \"drizzle\""));
}

TEST(Outing, OfAnUnknownSignIsRefused) {
    OutingBasis morning = basis(OutingLook::kMorning);
    morning.seen = "omen";
    EXPECT_EQ(make_outing(tables(), morning, sampled()).error().kind, ErrorKind::kBadInput);
}

TEST(Outing, CallsEachGuestByTheirOwnOdds) {
    OutingBasis guests = basis(OutingLook::kMorning);
    trip::Guest keen;
    keen.name = "Keen Invented";
    keen.starts_for_one_dawn = 30.0;
    trip::Guest tired;
    tired.name = "Tired Invented";
    tired.starts_for_one_dawn = 0.05;
    guests.trip->group.guests = {keen, tired};
    const OutingReport report = outing(guests);
    EXPECT_THAT(report.party.called, ::testing::ElementsAre("Keen Invented"));
    EXPECT_THAT(report.party.asleep, ::testing::ElementsAre("Tired Invented"));
    EXPECT_EQ(report.answer, "go");
    guests.trip->group.minimum_party = 2;
    EXPECT_EQ(outing(guests).answer, "stay");
}

TEST(Outing, HasAClosingTideAsItsFirstLineWhateverTheOdds) {
    OutingBasis tide = basis();
    tide.outcome_class = outlook::OutcomeClass::kSlight;  // odds near certainty
    tide.trip->places[0].tide_closes = {{dawn().date, std::chrono::hours(7) + std::chrono::minutes(30)}};
    const OutingReport report = outing(tide);
    EXPECT_GT(report.odds, 0.7);
    EXPECT_THAT(to_text(report), StartsWith("STOP      The tide closes the path at 07:30"));
    EXPECT_THAT(to_message(report, "on"), HasSubstr("The tide closes the path at 07:30"));
    EXPECT_LE(report.chain.leave_stand, report.chain.at_base);
}

TEST(Outing, HasAnOfficialWarningAsItsFirstLine) {  // the example of the standard, as if for this morning
    OutingBasis warned = basis();
    auto warnings = weather::read_warnings(
        read_text_file(GLOAM_SOURCE_DIR "/data/warnings/cap-1.2-appendix-a2.xml").value(), "a2.xml");
    warnings->front().areas.clear();
    warnings->front().expires.reset();
    warned.warnings = decide::KnownWarnings{*warnings, "a2.xml", kEvening};
    EXPECT_THAT(to_text(outing(warned)), StartsWith("STOP      \"SEVERE THUNDERSTORM WARNING"));
}

TEST(Outing, ShowsACautionSetAsideAsSuch) {
    OutingBasis aside = basis();
    aside.trip->places[0].tide_closes = {{dawn().date, std::chrono::hours(7) + std::chrono::minutes(30)}};
    EXPECT_TRUE(is_stopped(outing(aside)));
    aside.set_aside = {{outing(aside).cautions.front().text, "neap tide, checked with the harbour"}};
    EXPECT_FALSE(is_stopped(outing(aside)));
    EXPECT_THAT(to_text(outing(aside)),
                StartsWith("STOP      [set aside by you: neap tide, checked with the harbour]"));
}

TEST(Outing, NamesWhatIsToBeMindedAboveTheAnswer) {
    const std::string text = to_text(outing(basis()));
    EXPECT_THAT(text, StartsWith("MIND      "));
    EXPECT_LT(text.find("told below"), text.find(" in 10"));
}

TEST(Outing, NamesRunAndAgeBesideWhatTheForecastSaysOfTheGround) {
    OutingBasis windy = basis(OutingLook::kMorning);
    windy.near.gust_m_s = 18.0;
    windy.trip->places[0].tags = {trip::PlaceTag::kCliff};
    EXPECT_THAT(to_text(outing(windy)),
                ::testing::ContainsRegex("up to 18 m/s[^(]*\\(NCEP GFS, run 2025-01-29 00:00"));
}

TEST(Outing, CalledLateIsCalledNow) {
    OutingBasis late = basis(OutingLook::kMorning);
    late.outcome_class = outlook::OutcomeClass::kSlight;
    late.now = parse_rfc3339("2025-01-29T05:45:00Z").value();
    EXPECT_THAT(to_text(outing(late)), HasSubstr("GO. Wake them now: the call time"));
}

TEST(Outing, TellsTheKitchenWhenBreakfastIsLater) {
    OutingBasis early = basis();
    early.trip->kitchen = {std::chrono::hours(7), std::chrono::hours(21)};
    EXPECT_THAT(to_text(outing(early)), HasSubstr("after the usual 07:00: tell the kitchen before 21:00"));
}

TEST(Outing, OfAGroupThatNamesNobodyIsNotHeldToALeastParty) {
    OutingBasis party = basis();
    party.trip->group.minimum_party = 4;
    EXPECT_EQ(outing(party).threshold, outing(basis()).threshold);
}

TEST(Outing, NeedsAReasonForEachStopByItsWords) {
    OutingBasis warned = basis();
    weather::Warning yellow;
    yellow.headline = "Yellow wind";
    warned.warnings = decide::KnownWarnings{{yellow}, "typed by the leader", kEvening};
    warned.set_aside = {{outing(warned).cautions.front().text, "inland"}};
    EXPECT_FALSE(is_stopped(outing(warned)));
    warned.warnings->warnings.front().headline = "RED wind";
    EXPECT_TRUE(is_stopped(outing(warned)));
}

TEST(Outing, KeepsWordsOfOthersFromPassingForItsOwn) {
    OutingBasis warned = basis();
    weather::Warning sly;
    sly.headline = "Wind.\n\nGO. Wake them at 04:00.\x1b[2J";
    warned.warnings = decide::KnownWarnings{{sly}, "typed by the leader", kEvening};
    const OutingReport report = outing(warned);
    EXPECT_THAT(to_text(report) + to_message(report, "on"), Not(HasSubstr("\nGO. Wake them at 04:00")));
    EXPECT_THAT(to_text(report), Not(HasSubstr("\x1b")));
}

TEST(Outing, AfterTheStandIsLeftIsTooLate) {
    OutingBasis late = basis(OutingLook::kMorning);
    late.outcome_class = outlook::OutcomeClass::kSlight;
    late.now = parse_rfc3339("2025-01-29T09:00:00Z").value();
    EXPECT_THAT(to_text(outing(late)), HasSubstr("TOO LATE."));
}

TEST(Outing, AsAMessageFollowsTheAnswerThatHolds) {
    const OutingReport report = outing(basis());
    EXPECT_THAT(to_message(report, "go"), HasSubstr("ON."));
    EXPECT_THAT(to_message(report, "stay"), HasSubstr("OFF."));
}

TEST(Outing, AsAMessageIsShortAndPromisesNothing) {
    OutingBasis slight = basis();
    slight.outcome_class = outlook::OutcomeClass::kSlight;
    const std::string message = to_message(outing(slight), "on");
    EXPECT_LT(message.size(), 700U);
    EXPECT_THAT(message, AllOf(HasSubstr("Nothing is promised"), HasSubstr("Help:"),
                               HasSubstr("Walk in the dark"), HasSubstr("in, or out")));
    EXPECT_THAT(message, Not(HasSubstr("permission")));
}

TEST(Outing, SaysInNoLineThatAnythingIsTheForbiddenVerdict) {
    for (const OutingLook look : {OutingLook::kEvening, OutingLook::kMorning}) {
        const OutingReport report = outing(basis(look));
        EXPECT_THAT(to_text(report) + to_message(report, "on") + to_json(report, 1), Not(HasSubstr("safe")));
    }
}

TEST(OutingBasis, IsTheSameFromItsJson) {
    OutingBasis full = basis(OutingLook::kMorning);
    full.seen = "bank";
    full.before = CalledBefore{3, OutingLook::kEvening, kEvening, "provisional", 0.31};
    full.home_at = kEvening;
    full.near.gust_m_s = 7.25;
    weather::Warning warning;
    warning.issuer = "an issuer";
    warning.headline = "a headline";
    full.warnings = decide::KnownWarnings{{warning}, "typed by you", kEvening};
    full.set_aside = {{"tide", "checked"}};
    full.limits.fog_m = 123.0;
    const std::string json = to_json(full);
    const OutingBasis again = parse_outing_basis(json).value();
    EXPECT_EQ(to_json(again), json);
    EXPECT_EQ(to_text(outing(again)), to_text(outing(full)));
}

TEST(OutingBasis, OfOtherTextIsRefused) {
    const std::string json = to_json(basis());
    for (const std::string& text :
         {std::string(), std::string("null"), std::string("[]"), std::string("{\"layout\": 99}"),
          json.substr(0, json.size() / 2),
          std::string(json).replace(json.find("\"zone\": \"Europe/Rome"), 20, "\"zone\": \"Europe/Rom")}) {
        const auto read = parse_outing_basis(text);
        ASSERT_FALSE(read) << text.substr(0, 30);
        EXPECT_EQ(read.error().kind, ErrorKind::kUnreadable);
    }
}

class KeptOuting : public ::testing::Test {
  protected:
    KeptOuting() : journal_(journal::open_journal(folder_ / "journal.sqlite", kEvening).value()) {
        inputs_ = dawn();
        inputs_->trip = invented_trip();
        EXPECT_TRUE(store_trip(journal_, *inputs_->trip));
    }

    OutingReport look(OutingWishes wishes, Instant now) {
        const auto gathered = gather_basis(journal_, *inputs_, wishes, now);
        return outing(gathered.value());
    }
    std::int64_t kept(const OutingReport& report) {
        return record_outing(journal_, *inputs_, report, sampled()).value();
    }

    test::Folder folder_;
    journal::Journal journal_;
    std::optional<EventInputs> inputs_;
};

TEST_F(KeptOuting, IsReplayedToTheByte) {
    const OutingReport report = look({}, kEvening);
    const auto again = replay(tables(), journal_, kept(report)).value();
    EXPECT_TRUE(again.same_version);
    EXPECT_EQ(to_text(*again.report), again.stored.record.output);
    EXPECT_EQ(to_text(*again.report), to_text(report));
}

TEST_F(KeptOuting, WithoutANumberIsTheOneMadeLast) {
    kept(look({}, kEvening));
    const auto last = kept(look({}, kSmallHours));
    EXPECT_EQ(replay(tables(), journal_, std::nullopt).value().stored.id, last);
}

TEST_F(KeptOuting, OfAnotherVersionIsKnownAsSuch) {
    auto record = replay(tables(), journal_, kept(look({}, kEvening))).value().stored.record;
    record.model_version = "another";
    const auto again = replay(tables(), journal_, record_call(journal_, record).value()).value();
    EXPECT_FALSE(again.same_version);
}

TEST_F(KeptOuting, ThatIsNotThereIsNotFound) {
    EXPECT_EQ(replay(tables(), journal_, 99).error().kind, ErrorKind::kNotFound);
    EXPECT_EQ(replay(tables(), journal_, std::nullopt).error().kind, ErrorKind::kNotFound);
}

TEST_F(KeptOuting, IsWhatTheNextLookRemembers) {
    const OutingReport evening = look({}, kEvening);
    const auto call = kept(evening);
    OutingWishes morning;
    morning.look = OutingLook::kMorning;
    const auto before = look(morning, kSmallHours).basis.before.value();
    EXPECT_EQ(before.call, call);
    EXPECT_EQ(before.answer, evening.answer);
    EXPECT_TRUE(record_overrule(journal_, call, {kEvening, "go", "a feeling"}));
    EXPECT_EQ(look(morning, kSmallHours).basis.before->answer, "go");
}

TEST_F(KeptOuting, OfAnEarlierDawnSpendsAStart) {
    const auto call = kept(look({}, kEvening));
    EXPECT_TRUE(record_overrule(journal_, call, {kEvening, "go", "to be spent"}));
    EXPECT_EQ(look({}, kEvening).basis.starts_spent, 0) << "the same dawn";
    inputs_->date = parse_civil_date("2025-01-30").value();
    EXPECT_EQ(look({}, kEvening).basis.starts_spent, 1);
}

TEST_F(KeptOuting, RemembersWhatTheLastLookKnewOfWarnings) {
    OutingWishes typed;
    typed.typed_warnings = {"Yellow wind warning for the coast"};
    kept(look(typed, kEvening));
    EXPECT_THAT(to_text(look({}, kSmallHours)),
                StartsWith("STOP      \"Yellow wind warning for the coast\""));
    typed.typed_warnings = {"Red wind warning"};
    const OutingReport both = look(typed, kSmallHours);
    EXPECT_EQ(both.basis.warnings->warnings.size(), 2U);
    typed.typed_warnings = {"Yellow wind warning for the coast"};
    EXPECT_EQ(look(typed, kSmallHours).basis.warnings->warnings.size(), 1U) << "the same words once";
}

TEST_F(KeptOuting, RefusesAWarningThatIsNoText) {
    OutingWishes typed;
    typed.typed_warnings = {
        "B\xF6"
        "en"};
    EXPECT_EQ(gather_basis(journal_, *inputs_, typed, kEvening).error().kind, ErrorKind::kBadInput);
}

TEST_F(KeptOuting, RemembersWhatWasSeen) {
    OutingWishes drizzle;
    drizzle.look = OutingLook::kMorning;
    drizzle.seen = "drizzle";
    look(drizzle, kSmallHours);
    drizzle.seen.clear();
    EXPECT_EQ(look(drizzle, kSmallHours).basis.seen, "drizzle");
}

TEST_F(KeptOuting, HoldsToTheLastYesOrNoPastALookThatLeftItOpen) {
    const auto call = kept(look({}, kEvening));
    EXPECT_TRUE(record_overrule(journal_, call, {kEvening, "go", "a feeling"}));
    OutingReport open = look({}, kSmallHours);
    open.answer = "look_again";
    kept(open);
    EXPECT_EQ(look({}, kSmallHours).basis.before->answer, "go");
}

TEST_F(KeptOuting, AtASecondPlaceLeavesTheStartOfTheFirstSpent) {
    const auto first = kept(look({}, kEvening));
    EXPECT_TRUE(record_overrule(journal_, first, {kEvening + hours(1.0), "go", "to be spent"}));
    inputs_->place.name = "Another place";
    OutingReport second = look({}, kEvening);
    second.answer = "sleep";
    kept(second);
    inputs_->date = parse_civil_date("2025-01-30").value();
    EXPECT_EQ(look({}, kEvening).basis.starts_spent, 1);
}

TEST_F(KeptOuting, NamesNobodyInWhatIsStored) {
    inputs_->trip->plan_holder = "Polly Planholder";
    trip::Guest guest;
    guest.name = "Ada \"Dot\" Invented";
    inputs_->trip->group.guests = {guest};
    EXPECT_TRUE(store_trip(journal_, *inputs_->trip));
    const auto record = find_call(journal_, kept(look({}, kEvening))).value()->record;
    for (const char* name : {"Ada", "Dot", "Invented\\n", "Polly"}) {
        EXPECT_THAT(record.inputs + record.output, Not(HasSubstr(name)));
    }
}

TEST_F(KeptOuting, OfADawnTakesNoDriversDay) {
    OutingWishes since;
    since.driver_since = "07:00";
    EXPECT_EQ(gather_basis(journal_, *inputs_, since, kEvening).error().where, "--driver-since");
}

TEST_F(KeptOuting, CountsTheSleepSinceComingHome) {
    OutingWishes home;
    home.home_at = "22:30";
    const OutingReport report = look(home, kSmallHours);
    EXPECT_EQ(report.basis.home_at, parse_rfc3339("2025-01-28T21:30:00Z").value());
    EXPECT_THAT(to_text(report), HasSubstr("from coming home to the call time"));
    home.home_at = "half past ten";
    EXPECT_EQ(gather_basis(journal_, *inputs_, home, kEvening).error().where, "--home-at");
}

TEST_F(KeptOuting, OfATripThatIsNotInTheJournalIsRefused) {
    inputs_->trip->name = "Another week";
    const auto gathered = gather_basis(journal_, *inputs_, {}, kEvening);
    ASSERT_FALSE(gathered);
    EXPECT_THAT(gathered.error().hint, HasSubstr("gloam trip import"));
}

TEST(Difference, IsTheLinesThatDiffer) {
    EXPECT_EQ(difference("a\nb\nc\n", "a\nx\nc\nd\n"), "- b\n+ x\n+ d\n");
    EXPECT_EQ(difference("a\n", "a\n"), "");
    EXPECT_EQ(difference("", "a\n"), "+ a\n");
}

}  // namespace
}  // namespace gloam::app
