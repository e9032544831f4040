#include "geo/zone.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

namespace gloam::geo {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

Zone zone(std::string_view name) {
    return Zone::named(name).value();
}

Instant at(std::string_view text) {
    return parse_rfc3339(text).value();
}

CivilDate date(std::string_view text) {
    return parse_civil_date(text).value();
}

Duration length_of(std::string_view name, std::string_view day) {
    const auto span = zone(name).span_of(date(day)).value();
    return span.end - span.begin;
}

TEST(Zone, ShowsLocalTimeWithItsOffset) {
    EXPECT_EQ(zone("Europe/Rome").to_rfc3339(at("2025-01-29T06:03:41Z")), "2025-01-29T07:03:41+01:00");
    EXPECT_EQ(zone("America/St_Johns").to_rfc3339(at("2026-07-01T00:00:00Z")), "2026-06-30T21:30:00-02:30");
    EXPECT_EQ(zone("UTC").to_rfc3339(at("2026-07-01T00:00:00Z")), "2026-07-01T00:00:00+00:00");
    EXPECT_EQ(zone("Pacific/Chatham").clock(at("2026-01-01T00:00:00Z")), "13:45");
}

TEST(Zone, RoundsTheSecondAndTheMinute) {
    EXPECT_EQ(zone("UTC").to_rfc3339(at("2026-12-31T23:59:59.7Z")), "2027-01-01T00:00:00+00:00");
    EXPECT_EQ(zone("UTC").clock(at("2026-12-31T23:59:30Z")), "00:00");
    EXPECT_EQ(zone("UTC").clock(at("2026-12-31T06:37:29.9Z")), "06:37");
}

TEST(Zone, RoundingMayStepOverAChangeOfClocks) {
    // At 01:00 UTC London goes from 01:00 to 02:00; a quarter of a minute before, the nearest minute is that
    // one.
    EXPECT_EQ(zone("Europe/London").clock(at("2026-03-29T00:59:45Z")), "02:00");
    EXPECT_EQ(zone("Europe/London").clock(at("2026-03-29T00:59:15Z")), "00:59");
}

TEST(Zone, OffsetsOfOldLocalMeanTimeAreRoundedWithTheirTime) {
    const std::string text = zone("America/New_York").to_rfc3339(at("1870-01-01T12:00:00Z"));
    EXPECT_EQ(text, "1870-01-01T07:04:00-04:56");
    EXPECT_EQ(parse_rfc3339(text).value(), at("1870-01-01T12:00:00Z"));
}

TEST(Zone, DayLengthsFollowTheClocksInBothHemispheres) {
    EXPECT_EQ(length_of("Europe/London", "2026-03-28"), hours(24));
    EXPECT_EQ(length_of("Europe/London", "2026-03-29"), hours(23));
    EXPECT_EQ(length_of("Europe/London", "2026-10-25"), hours(25));
    EXPECT_EQ(length_of("Australia/Sydney", "2026-04-05"), hours(25));
    EXPECT_EQ(length_of("Australia/Sydney", "2026-10-04"), hours(23));
    EXPECT_EQ(length_of("Pacific/Chatham", "2026-04-05"), hours(25));
    EXPECT_EQ(length_of("Australia/Lord_Howe", "2026-04-05"), hours(24) + minutes(30));
    EXPECT_EQ(length_of("Australia/Lord_Howe", "2026-10-04"), hours(23) + minutes(30));
    EXPECT_EQ(length_of("Asia/Kathmandu", "2026-03-29"), hours(24));
}

TEST(Zone, ADayWhoseMidnightIsSkippedBeginsAtOne) {
    const auto span = zone("America/Santiago").span_of(date("2026-09-06")).value();
    EXPECT_EQ(zone("America/Santiago").to_rfc3339(span.begin), "2026-09-06T01:00:00-03:00");
    EXPECT_EQ(span.end - span.begin, hours(23));
}

TEST(Zone, ApiaHasNoThirtiethOfDecember2011) {
    const Zone apia = zone("Pacific/Apia");
    const auto before = apia.span_of(date("2011-12-29")).value();
    const auto skipped = apia.span_of(date("2011-12-30"));
    const auto after = apia.span_of(date("2011-12-31")).value();
    EXPECT_EQ(before.end, after.begin);
    EXPECT_EQ(before.end - before.begin, hours(24));
    ASSERT_FALSE(skipped);
    EXPECT_EQ(skipped.error().kind, ErrorKind::kNotFound);
    EXPECT_THAT(skipped.error().message, HasSubstr("2011-12-30"));
}

TEST(Zone, ADateThatIsNoDateIsRefused) {
    using namespace std::chrono;
    EXPECT_EQ(zone("UTC").span_of(year(2026) / February / 30).error().kind, ErrorKind::kBadInput);
}

TEST(Zone, SpansOfConsecutiveDatesMeet) {
    for (const char* name : {"Europe/London", "Pacific/Apia", "America/St_Johns", "Australia/Lord_Howe",
                             "America/Havana", "Africa/Casablanca", "America/Adak", "Pacific/Kiritimati"}) {
        const Zone here = zone(name);
        Instant end = here.span_of(date("2010-01-01")).value().begin;
        for (std::chrono::sys_days day = date("2010-01-01"); day < std::chrono::sys_days(date("2013-01-01"));
             day += std::chrono::days(1)) {
            if (const auto span = here.span_of(CivilDate(day))) {
                ASSERT_EQ(span->begin, end) << name << " " << to_text(CivilDate(day));
                ASSERT_EQ(here.date_of(span->begin), CivilDate(day));
                end = span->end;
            }
        }
    }
}

TEST(Zone, DatesBelongToTheLocalClock) {
    const Instant instant = at("2026-06-21T10:30:00Z");
    EXPECT_EQ(zone("Pacific/Kiritimati").date_of(instant), date("2026-06-22"));
    EXPECT_EQ(zone("Pacific/Pago_Pago").date_of(instant), date("2026-06-20"));
    EXPECT_EQ(zone("UTC").date_of(at("1969-12-31T23:59:59.999Z")), date("1969-12-31"));
}

TEST(Zone, AClockReadingMayNameOneInstantNoneOrTwo) {
    const Zone london = zone("Europe/London");
    EXPECT_THAT(london.instants_of(date("2026-06-21"), hours(4)), ElementsAre(at("2026-06-21T03:00:00Z")));
    EXPECT_THAT(london.instants_of(date("2026-03-29"), minutes(90)), IsEmpty());
    EXPECT_THAT(london.instants_of(date("2026-10-25"), minutes(90)),
                ElementsAre(at("2026-10-25T00:30:00Z"), at("2026-10-25T01:30:00Z")));
    EXPECT_THAT(zone("Australia/Lord_Howe").instants_of(date("2026-10-04"), minutes(135)), IsEmpty());
    EXPECT_THAT(zone("Australia/Lord_Howe").instants_of(date("2026-04-05"), minutes(105)),
                ElementsAre(at("2026-04-04T14:45:00Z"), at("2026-04-04T15:15:00Z")));
    EXPECT_THAT(zone("Australia/Sydney").instants_of(date("2026-10-04"), minutes(150)), IsEmpty());
    EXPECT_THAT(london.instants_of(date("2026-06-21"), Duration(1)),
                ElementsAre(at("2026-06-20T23:00:00.001Z")));
}

TEST(Zone, IsACheapHandleThatComparesByZone) {
    static_assert(sizeof(Zone) == sizeof(void*));
    EXPECT_EQ(zone("Europe/Oslo"), zone("Europe/Oslo"));
    EXPECT_FALSE(zone("Europe/Oslo") == zone("Europe/Rome"));
    EXPECT_EQ(zone("Europe/Oslo").name(), "Europe/Oslo");
}

TEST(Zone, AnUnknownNameSuggestsNearOnes) {
    EXPECT_THAT(Zone::named("europe/rome").error().hint, HasSubstr("Europe/Rome"));
    EXPECT_THAT(Zone::named("Oslo").error().hint, HasSubstr("Europe/Oslo"));
    EXPECT_THAT(Zone::named("New York").error().hint, HasSubstr("America/New_York"));
    EXPECT_THAT(Zone::named("Europe/Lisbonn").error().hint, HasSubstr("Europe/Lisbon"));
}

TEST(Zone, HostileNamesAreRefused) {
    for (const std::string& name :
         {std::string(), std::string(" "), std::string("/"), std::string("../../etc/passwd"),
          std::string("nan"), std::string("Europe/Rome "), std::string("Europe/Rome\0", 12),
          std::string("Z\xc3\xbcrich"), std::string(1'000'000, 'x'), std::string("+01:00"),
          std::string("\xff\xfe")}) {
        const auto refused = Zone::named(name);
        ASSERT_FALSE(refused) << name.substr(0, 40);
        EXPECT_EQ(refused.error().kind, ErrorKind::kNotFound);
        EXPECT_LT(refused.error().message.size(), 100U);
        EXPECT_FALSE(refused.error().hint.empty());
    }
}

}  // namespace
}  // namespace gloam::geo
