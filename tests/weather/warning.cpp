#include "weather/warning.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <sstream>

namespace gloam::weather {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// The example of the standard, appendix A.2 (data/warnings/README.md).
std::string standards_example() {
    std::stringstream text;
    text << std::ifstream(GLOAM_SOURCE_DIR "/data/warnings/cap-1.2-appendix-a2.xml").rdbuf();
    return text.str();
}

Instant at(std::string_view time) {
    return parse_rfc3339(time).value();
}

std::string replaced(std::string text, std::string_view what, std::string_view by) {
    text.replace(text.find(what), what.size(), by);
    return text;
}

TEST(Warning, OfTheStandardsExampleIsReadWordForWord) {
    const auto warnings = read_warnings(standards_example(), "a2.xml").value();
    ASSERT_THAT(warnings, SizeIs(1));
    EXPECT_EQ(warnings[0].issuer, "NATIONAL WEATHER SERVICE SACRAMENTO CA");
    EXPECT_EQ(warnings[0].headline, "SEVERE THUNDERSTORM WARNING");
    EXPECT_EQ(warnings[0].severity, "Severe");
    EXPECT_THAT(warnings[0].description,
                HasSubstr("18 MILES SOUTHEAST OF KIRKWOOD...MOVING SOUTHWEST AT 5 MPH"));
    EXPECT_EQ(warnings[0].sent, at("2003-06-17T21:57:00Z"));
    EXPECT_EQ(warnings[0].expires, at("2003-06-17T23:00:00Z"));
    EXPECT_FALSE(warnings[0].onset);
}

TEST(Warning, HoldsWithinItsPolygonAlone) {
    const Warning warning = read_warnings(standards_example(), "a2.xml").value().front();
    EXPECT_TRUE(may_hold_at(warning, {38.48, -119.94}));
    EXPECT_TRUE(may_hold_at(warning, {38.48, 240.06})) << "the same place";
    EXPECT_TRUE(may_hold_at(warning, {38.47, -120.14})) << "a corner";
    EXPECT_FALSE(may_hold_at(warning, {38.48, -120.30}));
    EXPECT_FALSE(may_hold_at(warning, {38.80, -119.94}));
}

TEST(Warning, HoldsAcrossTheDateLine) {
    Warning warning;
    warning.areas = {
        {"", {{{-10.0, 179.0}, {-10.0, -179.0}, {-12.0, -179.0}, {-12.0, 179.0}, {-10.0, 179.0}}}, {}}};
    EXPECT_TRUE(may_hold_at(warning, {-11.0, 179.9}));
    EXPECT_TRUE(may_hold_at(warning, {-11.0, -179.9}));
    EXPECT_FALSE(may_hold_at(warning, {-11.0, 178.0}));
    EXPECT_FALSE(may_hold_at(warning, {-11.0, 0.0}));
}

TEST(Warning, HoldsWithinACircle) {
    Warning warning;
    warning.areas = {{"", {}, {{{50.0, 5.0}, 10000.0}}}};
    EXPECT_TRUE(may_hold_at(warning, {50.08, 5.0}));
    EXPECT_FALSE(may_hold_at(warning, {50.10, 5.0}));
}

TEST(Warning, WithoutAnOutlineMayHoldAnywhere) {
    Warning warning;
    EXPECT_TRUE(may_hold_at(warning, {0.0, 0.0}));
    warning.areas = {{"THE WHOLE COAST", {}, {}}};
    EXPECT_TRUE(may_hold_at(warning, {0.0, 0.0}));
}

TEST(Warning, HoldsFromItsOnsetToItsEnd) {
    const Warning warning = read_warnings(standards_example(), "a2.xml").value().front();
    EXPECT_TRUE(may_hold_during(warning, at("2003-06-17T22:30:00Z"), at("2003-06-18T02:00:00Z")));
    EXPECT_FALSE(may_hold_during(warning, at("2003-06-17T23:30:00Z"), at("2003-06-18T02:00:00Z")));
    Warning later = warning;
    later.onset = at("2003-06-17T22:45:00Z");
    EXPECT_FALSE(may_hold_during(later, at("2003-06-17T21:00:00Z"), at("2003-06-17T22:00:00Z")));
}

TEST(Warning, OfATestOrADraftIsNone) {
    for (const char* status : {"Test", "Exercise", "Draft", "System"}) {
        const std::string text = replaced(standards_example(), ">Actual<", std::string(">") + status + "<");
        EXPECT_THAT(read_warnings(text, "a2.xml").value(), IsEmpty()) << status;
    }
}

std::string feed(const std::string& first, const std::string& second) {
    const auto body = [](const std::string& text) { return text.substr(text.find("<alert")); };
    return "<feed><entry>" + body(first) + "</entry><entry>" + body(second) + "</entry></feed>";
}

TEST(Warning, ThatALaterOneReplacesOrCancelsIsGone) {
    std::string later = replaced(standards_example(), "KSTO1055887203<", "KSTO2<");
    later = replaced(
        later, "<scope>",
        "<references>KSTO@NWS.NOAA.GOV,KSTO1055887203,2003-06-17T14:57:00-07:00</references><scope>");
    const std::string update = replaced(later, ">Alert<", ">Update<");
    const std::string cancel = replaced(later, ">Alert<", ">Cancel<");
    EXPECT_THAT(read_warnings(feed(standards_example(), later), "feed").value(), SizeIs(2));
    EXPECT_THAT(read_warnings(feed(standards_example(), update), "feed").value(), SizeIs(1));
    EXPECT_THAT(read_warnings(feed(standards_example(), cancel), "feed").value(), IsEmpty());
}

TEST(Warning, InSeveralLanguagesIsReadInEnglish) {
    const std::string info = standards_example();
    const std::size_t begin = info.find("<info>");
    const std::size_t end = info.find("</info>") + 7;
    std::string french = info.substr(begin, end - begin);
    french = replaced(french, "<info>", "<info><language>fr-FR</language>");
    french = replaced(french, "SEVERE THUNDERSTORM WARNING", "ORAGES");
    const std::string both = info.substr(0, begin) + french + info.substr(begin);
    const auto warnings = read_warnings(both, "both").value();
    ASSERT_THAT(warnings, SizeIs(1));
    EXPECT_EQ(warnings[0].headline, "SEVERE THUNDERSTORM WARNING");
}

struct Damage {
    const char* what;
    const char* by;
    const char* told;
};

class DamagedWarning : public ::testing::TestWithParam<Damage> {};

TEST_P(DamagedWarning, IsRefusedWithTheReason) {
    const auto [what, by, told] = GetParam();
    const auto read = read_warnings(replaced(standards_example(), what, by), "a2.xml");
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().kind, ErrorKind::kUnreadable);
    EXPECT_THAT(read.error().message, HasSubstr(told));
    EXPECT_THAT(read.error().where, HasSubstr("a2.xml"));
}

INSTANTIATE_TEST_SUITE_P(
    Files, DamagedWarning,
    ::testing::Values(Damage{"</info>", "", "no sound XML"}, Damage{"<alert", "<alarm", "no sound XML"},
                      Damage{"2003-06-17T16:00:00-07:00", "this evening", "is no time"},
                      Damage{"<sent>2003-06-17T14:57:00-07:00</sent>", "", "no <sent>"},
                      Damage{"38.34,-119.95", "north,west", "is no place"},
                      Damage{"38.34,-119.95", "98.34,-119.95", "is no place"},
                      Damage{"38.34,-119.95 38.52,-119.74 38.62,-119.89", "", "polygon of 2 points"},
                      Damage{"</polygon>", "</polygon><circle>38,-120</circle>", "is no circle"}));

TEST(Warning, OfAFileThatHoldsNoAlertIsRefused) {
    EXPECT_THAT(read_warnings("<gpx/>", "x").error().message, HasSubstr("no <alert>"));
    EXPECT_FALSE(read_warnings("", "x"));
}

TEST(Warning, DoesNotExpandEntities) {
    const std::string bomb = "<!DOCTYPE alert [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;\">]>" +
                             replaced(standards_example(), "SEVERE THUNDERSTORM WARNING", "&b;")
                                 .substr(standards_example().find("<alert"));
    EXPECT_EQ(read_warnings(bomb, "x").value().front().headline, "&b;");
}

}  // namespace
}  // namespace gloam::weather
