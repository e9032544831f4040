// Calls for the real trio: three places under high or low cloud in one GFS file, dawn of 2025-01-29.
#include "app/real_place.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

namespace gloam::app {
namespace {

using ::testing::HasSubstr;
using ::testing::IsSupersetOf;
using ::testing::Not;
using ::testing::UnorderedElementsAre;

std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::ranges::count(text, '\n'));
}

std::set<std::string> keys_of(const nlohmann::json& json) {
    std::set<std::string> keys;
    for (const auto& [key, value] : json.items()) {
        keys.insert(key);
    }
    return keys;
}

class RealTrio : public ::testing::Test {
  protected:
    static void SetUpTestSuite() {
        for (const char* place : {"37.07,15.29", "43.10,13.84", "46.37,14.10"}) {
            reports_.push_back(make_call(tables(), inputs_for(place), {}, kEvening).value());
        }
    }
    static const CallReport& ionian() { return reports_[0]; }
    static const CallReport& adriatic() { return reports_[1]; }
    static const CallReport& bled() { return reports_[2]; }

    static inline std::vector<CallReport> reports_;
};

TEST_F(RealTrio, TheIonianCoastIsBestByFar) {
    EXPECT_GT(ionian().outlook.odds.good, 2.0 * adriatic().outlook.odds.good);
    EXPECT_GT(ionian().outlook.after.median, 2.0 * adriatic().outlook.after.median);
}

TEST_F(RealTrio, TheAdriaticCoastLiesClearlyBelowItAndBledLast) {
    EXPECT_LT(bled().outlook.odds.good, adriatic().outlook.odds.good);
    EXPECT_LT(bled().outlook.odds.slight, adriatic().outlook.odds.slight);
    EXPECT_LT(bled().outlook.odds.fair, adriatic().outlook.odds.fair);
}

TEST_F(RealTrio, TheIonianLightPathIsOpen) {
    const auto& reason = ionian().outlook.reasons.front();
    EXPECT_EQ(reason.verdict, outlook::Verdict::kOpen);
    EXPECT_EQ(reason.canvas, weather::Band::kHigh);
    EXPECT_GE(reason.members, 20);
}

TEST_F(RealTrio, TheAdriaticLightPathIsShutByMoreHighCloudUpSun) {
    const auto& reason = adriatic().outlook.reasons.front();
    EXPECT_EQ(reason.verdict, outlook::Verdict::kShut);
    EXPECT_EQ(reason.canvas, weather::Band::kHigh);
    EXPECT_EQ(reason.blocker, weather::Band::kHigh);
    EXPECT_GE(reason.members, 20);
}

TEST_F(RealTrio, BledLiesUnderLowCloud) {
    const auto& reason = bled().outlook.reasons.front();
    EXPECT_EQ(reason.verdict, outlook::Verdict::kHidden);
    EXPECT_EQ(reason.canvas, weather::Band::kLow);
}

TEST_F(RealTrio, FitsOnOneScreen) {
    for (const CallReport& report : reports_) {
        const std::string text = to_text(report);
        EXPECT_LE(lines_in(text), 24U) << text;
        std::istringstream lines(text);
        for (std::string line; std::getline(lines, line);) {
            EXPECT_LE(line.size(), 100U) << line;
        }
    }
}

TEST_F(RealTrio, NeverSaysSafe) {
    for (const CallReport& report : reports_) {
        EXPECT_THAT(to_explanation(report), Not(HasSubstr("safe")));
        EXPECT_THAT(to_json(report), Not(HasSubstr("safe")));
    }
}

TEST_F(RealTrio, TellsTheWindowOnTheClockOfThePlace) {
    EXPECT_THAT(to_text(ionian()), HasSubstr("Sunrise 07:04"));
    EXPECT_THAT(to_json(ionian()), HasSubstr("+01:00\""));
}

TEST_F(RealTrio, JsonHoldsExactlyItsFields) {
    const auto json = nlohmann::json::parse(to_json(ionian()));
    EXPECT_THAT(keys_of(json), IsSupersetOf({"call", "threshold", "class", "odds", "strength", "window",
                                             "sun", "members", "run", "missing", "reasons"}));  // the issue's
    EXPECT_THAT(keys_of(json),
                UnorderedElementsAre("call", "threshold", "class", "starts_for_one", "odds", "strength",
                                     "minutes_good", "window", "sun", "members", "run", "missing", "reasons",
                                     "cautions", "place", "event", "file"));  // docs/cli.md
    EXPECT_THAT(keys_of(json["odds"]), UnorderedElementsAre("slight", "fair", "good", "outstanding"));
    EXPECT_THAT(keys_of(json["strength"]), UnorderedElementsAre("after", "gold"));
    EXPECT_THAT(keys_of(json["strength"]["after"]), UnorderedElementsAre("median", "p10", "p90"));
    EXPECT_THAT(keys_of(json["window"]), UnorderedElementsAre("from", "to", "azimuth_deg", "opposite"));
    EXPECT_THAT(keys_of(json["sun"]), UnorderedElementsAre("time", "azimuth_deg"));
    EXPECT_THAT(keys_of(json["run"]), UnorderedElementsAre("source", "time", "age_h"));
}

TEST_F(RealTrio, TheWorkingNamesEveryMemberAndMoment) {
    EXPECT_GE(lines_in(to_explanation(ionian())),
              ionian().outlook.members.size() + ionian().outlook.moments.size());
}

TEST_F(RealTrio, AgeIsCountedToNowUntilTheEventIsPast) {
    EXPECT_FALSE(ionian().past);
    EXPECT_NEAR(ionian().age_h, -4.0, 1e-9);  // the evening before, by a run that was yet to come
}

}  // namespace
}  // namespace gloam::app
