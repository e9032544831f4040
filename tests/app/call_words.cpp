// A call in words and as JSON, from reports made by hand.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "app/event_words.hpp"
#include "app/report.hpp"

namespace gloam::app {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

TEST(OddsInWords, AreTenthsAndNeverNoneOrAll) {
    EXPECT_EQ(odds_in_words(0.02), "fewer than 1 in 10");
    EXPECT_EQ(odds_in_words(0.049), "fewer than 1 in 10");
    EXPECT_EQ(odds_in_words(0.05), "1 in 10");
    EXPECT_EQ(odds_in_words(0.32), "3 in 10");
    EXPECT_EQ(odds_in_words(0.5), "5 in 10");
    EXPECT_EQ(odds_in_words(0.949), "9 in 10");
    EXPECT_EQ(odds_in_words(0.97), "more than 9 in 10");
    EXPECT_EQ(odds_in_words(0.98), "more than 9 in 10");
}

TEST(Heading, NamesEventAndDay) {
    EXPECT_EQ(heading_of(astro::EventKind::kDawn, parse_civil_date("2025-01-29").value()),
              "Dawn of Wed 29 Jan 2025");
    EXPECT_EQ(heading_of(astro::EventKind::kDusk, parse_civil_date("2024-02-29").value()),
              "Dusk of Thu 29 Feb 2024");
}

TEST(SourceLine, SaysRunAndAge) {
    CallReport report = sample_report();
    EXPECT_EQ(source_line(report), "NCEP GFS, run 2025-01-29 00:00 UTC, 6 h old");
    report.past = true;
    EXPECT_THAT(source_line(report), HasSubstr("this event is past"));
}

TEST(CallInWords, TellsPeopleToGetUpOrToSleep) {
    CallReport report = sample_report();
    report.call.decision = decide::Decision::kGo;
    EXPECT_THAT(to_text(report), HasSubstr("GO. Get them up."));
    report.call.decision = decide::Decision::kStay;
    EXPECT_THAT(to_text(report), HasSubstr("STAY. Let them sleep."));
    report.call.decision = decide::Decision::kLookAgain;
    EXPECT_THAT(to_text(report), HasSubstr("needs cloud by layer"));
}

TEST(CallInWords, CallsNobodyOutOfBedForADusk) {
    CallReport report = sample_report();
    report.kind = astro::EventKind::kDusk;
    EXPECT_THAT(to_text(report), Not(HasSubstr("sleep")));
    EXPECT_THAT(to_text(report), HasSubstr("Sunset"));
}

TEST(CallInWords, CautionsBeforeItTellsTheOdds) {
    const std::string text = to_text(sample_report());
    ASSERT_NE(text.find("not checked:"), std::string::npos);
    EXPECT_LT(text.find("not checked:"), text.find(" in 10"));
}

TEST(CallInWords, WarnsOfAnOldForecast) {
    CallReport report = sample_report();
    EXPECT_THAT(to_text(report), Not(HasSubstr("fetch a newer run")));
    report.age_h = 13.0;
    EXPECT_THAT(to_text(report), HasSubstr("the forecast is 13 h old: fetch a newer run"));
}

TEST(CallInWords, PutsWhatSpeaksAgainstTheCallApart) {
    CallReport report = sample_report();  // one open reason, one shut
    report.call.decision = decide::Decision::kGo;
    EXPECT_LT(to_text(report).find("Why       High cloud at 9.0 km"),
              to_text(report).find("Against   Middle cloud"));
    report.call.decision = decide::Decision::kStay;
    EXPECT_LT(to_text(report).find("Why       Middle cloud"),
              to_text(report).find("Against   High cloud at 9.0 km"));
}

TEST(CallInWords, SaysThatTheSunStaysDown) {
    CallReport report = sample_report();
    report.sun.reset();
    EXPECT_THAT(to_text(report), HasSubstr("The sun stays below"));
}

TEST(CallInWords, HasNoLineWiderThanTheScreen) {
    CallReport report = sample_report();
    report.outcome_class = outlook::OutcomeClass::kGood;
    report.call.odds = 0.02;  // "fewer than 1 in 10 for good or better" is the longest
    report.starts_for_one = 2.33333;
    std::istringstream lines(to_text(report));
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(line.size(), 100U) << line;
    }
}

TEST(CallAsJson, HoldsWhatIsMissingAsNull) {
    CallReport report = sample_report();
    report.outlook.gold.reset();
    report.outlook.window.opposite.reset();
    report.sun.reset();
    const auto json = nlohmann::json::parse(to_json(report));
    EXPECT_TRUE(json["strength"]["gold"].is_null());
    EXPECT_TRUE(json["window"]["opposite"].is_null());
    EXPECT_TRUE(json["sun"]["time"].is_null());
    EXPECT_TRUE(json["sun"]["azimuth_deg"].is_null());
}

TEST(CallAsJson, RoundsToWhatIsKnown) {
    CallReport report = sample_report();
    report.call.threshold = 1.0 / 3.0;
    report.outlook.odds.good = 0.31999;
    EXPECT_THAT(to_json(report), HasSubstr("\"threshold\": 0.3333,"));  // once 0.33330000000000004
    EXPECT_THAT(to_json(report), HasSubstr("\"good\": 0.32,"));
}

TEST(CallAsJson, SurvivesAFileNameThatIsNoText) {
    CallReport report = sample_report();
    report.skipped.push_back({{"\xff\xfe.grib2", 3, 1}, "not used"});
    EXPECT_EQ(nlohmann::json::parse(to_json(report))["file"]["not_used"][0]["message"], 3);
}

}  // namespace
}  // namespace gloam::app
