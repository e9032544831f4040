// Calls from real files of other families: what decides must be what the file says.
#include <gmock/gmock.h>

#include <algorithm>

#include "app/look_text.hpp"
#include "app/real_place.hpp"
#include "outlook/section.hpp"

namespace gloam::app {
namespace {

using outlook::Verdict;
using ::testing::Contains;
using ::testing::HasSubstr;

struct Asked {
    std::string file;
    std::string place;
    std::string date;
    std::string event;
    std::string zone;
};

const Asked kLondon{"metno-locationforecast-complete-51.5n-0.1w-20200720.json", "51.5,-0.1", "2020-07-21",
                    "dawn", "Europe/London"};

EventInputs inputs_of(const Asked& asked) {
    EventWords words;
    words.place = asked.place;
    words.date = asked.date;
    words.event = asked.event;
    words.zone = asked.zone;
    words.forecast_files = {GLOAM_SOURCE_DIR "/data/weather/" + asked.file};
    return gather_inputs(words, {}).value();
}

CallReport call_for(const Asked& asked) {
    return make_call(tables(), inputs_of(asked), {}, kEvening).value();
}

int members_with(const CallReport& report, Verdict verdict) {
    int members = 0;
    for (const auto& reason : report.outlook.reasons) {
        members += reason.verdict == verdict ? reason.members : 0;
    }
    return members;
}

/// Said before the call was ever run: over Denver and 700 km up-sun the humidity of 2005-08-07 12 UTC is far
/// below the critical one on every level, so there is no cloud to light and none to stop the light.
TEST(RealDenver, HumidityImpliesAClearSkyAndThatIsTheReason) {
    const CallReport report = call_for({"wrf-conus-40km-2005080700-f012-rh-profile.grib1", "39.7,-105",
                                        "2005-08-07", "dawn", "America/Denver"});
    EXPECT_GE(members_with(report, Verdict::kNoCanvas), 25);
    EXPECT_EQ(report.call.decision, decide::Decision::kStay);
    EXPECT_THAT(report.outlook.missing, Contains(HasSubstr("worked out from humidity")));
}

/// Middle cloud overhead with more of it 100 to 200 km up-sun; low cloud hides it in some members.
TEST(RealIowa, MiddleCloudUpSunOrLowCloudDecidesAtBothPlaces) {
    for (const char* place : {"42.5,-92.5", "40,-92.5"}) {
        const CallReport report = call_for({"gfs-global-2p5deg-2011100800-f072-cloud-subset.grib2", place,
                                            "2011-10-10", "dusk", "America/Chicago"});
        EXPECT_GE(members_with(report, Verdict::kShut) + members_with(report, Verdict::kHidden), 12) << place;
        const auto shut =
            std::ranges::find(report.outlook.reasons, Verdict::kShut, &outlook::Reason::verdict);
        ASSERT_NE(shut, report.outlook.reasons.end()) << place;
        EXPECT_EQ(shut->blocker, weather::Band::kMiddle) << place;
        EXPECT_GE(shut->blocked_from_m, 50.0e3) << place;
        EXPECT_LE(shut->blocked_to_m, 300.0e3) << place;
    }
}

TEST(RealIfs, TotalCoverAloneIsLookedAtAgainAndNeedsCloudByLayer) {
    const CallReport report = call_for(
        {"ifs-global-0p25deg-2026031000-f000-tcc.grib2", "23.8,90.4", "2026-03-10", "dawn", "Asia/Dhaka"});
    EXPECT_EQ(report.call.decision, decide::Decision::kLookAgain);
    EXPECT_THAT(to_text(report), HasSubstr("needs cloud by layer"));
}

TEST(RealLondon, OneColumnGivesACallThatSaysTheLightPathIsUnknown) {
    const CallReport report = call_for(kLondon);
    EXPECT_EQ(report.outlook.members.size(), 31U);
    EXPECT_THAT(report.outlook.missing, Contains(HasSubstr("the light path")));
}

std::string look_at(const std::string& file, const LookWishes& wishes = {}) {
    const std::vector<std::filesystem::path> files{GLOAM_SOURCE_DIR "/data/weather/" + file};
    std::optional<weather::Wanted::Round> round;
    if (wishes.place) {
        round = {*wishes.place, 1.0e6};
    }
    return to_text(weather::survey(files, round), wishes);
}

TEST(RealLook, TellsRunLevelsTimesAndRoute) {
    const std::string text = look_at("gfs-global-1deg-2025012900-f006-tcdc-profile.grib2");
    EXPECT_THAT(text, HasSubstr("NCEP GFS, run 2025-01-29 00:00 UTC, one run, no members"));
    EXPECT_THAT(text, HasSubstr("on 1 deg, 360 x 181"));
    EXPECT_THAT(text, HasSubstr("cloud cover, 22 levels, 50 to 1000 hPa"));
    EXPECT_THAT(text, HasSubstr("cloud by layer: cover on pressure levels"));
    EXPECT_THAT(text, HasSubstr("not in these files: heights of the levels"));
    EXPECT_THAT(text, HasSubstr("grib2: 26 messages"));
}

TEST(RealLook, TellsTheColumnOverAPlaceAndTheCoverTowardsTheSun) {
    const std::string text = look_at("gfs-global-1deg-2025012900-f006-tcdc-profile.grib2",
                                     {.place = geo::LatLon{46.0, 14.0}, .at = std::nullopt});
    EXPECT_THAT(text, HasSubstr("over 46.0000 N 14.0000 E, UTC:"));
    EXPECT_THAT(text, HasSubstr("low    100 %"));  // 100 % at 800 hPa in that cell
    EXPECT_THAT(text, HasSubstr("towards the sun (110 deg, east-south-east"));
}

TEST(RealLook, GivesNoLightPathForOneColumn) {
    const std::string text = look_at("metno-locationforecast-complete-51.5n-0.1w-20200720.json",
                                     {.place = geo::LatLon{51.5, -0.1}, .at = std::nullopt});
    EXPECT_THAT(text, HasSubstr("one column: what lies up-sun is not in it"));
    EXPECT_THAT(text, ::testing::Not(HasSubstr("towards the sun")));
}

TEST(RealSection, OfOneColumnIsRefused) {
    const EventInputs inputs = inputs_of(kLondon);
    const auto section = outlook::section_of(tables(), inputs.layers, inputs.request());
    ASSERT_FALSE(section);
    EXPECT_EQ(section.error().kind, ErrorKind::kUnsupported);
}

TEST(RealLook, TellsMeansMembersGapsAndWhatWasNotUsed) {
    const std::string cfs = look_at("cfs-global-t62-2006033100-f024-cloud-subset.grib1");
    EXPECT_THAT(cfs, HasSubstr("on Gaussian, 1.875 deg, 192 x 94"));
    EXPECT_THAT(cfs, HasSubstr("mean 2006-03-31 18:00 + 6 h"));
    EXPECT_THAT(cfs, HasSubstr("not used: 9"));
    EXPECT_THAT(look_at("wrf-conus-40km-2005080700-f012-rh-profile.grib1"), HasSubstr("41 % missing"));
    EXPECT_THAT(look_at("ncv-conus-5km-200711210135-visibility.grib2"),
                HasSubstr("279189 numbers for \"no value\", masked"));
}

}  // namespace
}  // namespace gloam::app
