#include "base/instant.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <string>

namespace gloam {
namespace {

using namespace std::chrono_literals;
using std::chrono::sys_days;

constexpr Instant kDawn = sys_days(2025y / 1 / 29) + 6h + 3min + 41s;

TEST(ParseInstant, ReadsUtcAndOffsets) {
    for (const char* text : {"2025-01-29T06:03:41Z", "2025-01-29T07:03:41+01:00", "2025-01-28T20:33:41-09:30",
                             "2025-01-29T20:03:41+14:00", "2025-01-29T06:03:41-00:00"}) {
        const auto instant = parse_rfc3339(text);
        ASSERT_TRUE(instant) << text;
        EXPECT_EQ(*instant, kDawn) << text;
    }
}

TEST(ParseInstant, KeepsMillisecondsAndDropsTheRest) {
    EXPECT_EQ(parse_rfc3339("2025-01-29T06:03:41.5Z"), kDawn + 500ms);
    EXPECT_EQ(parse_rfc3339("2025-01-29T06:03:41.042Z"), kDawn + 42ms);
    EXPECT_EQ(parse_rfc3339("2025-01-29T06:03:41.0429999999999999999999Z"), kDawn + 42ms);
}

TEST(ParseInstant, KnowsLeapDays) {
    EXPECT_EQ(parse_rfc3339("2024-02-29T00:00:00Z"), Instant(sys_days(2024y / 2 / 29)));
    EXPECT_EQ(parse_rfc3339("2000-02-29T00:00:00Z"), Instant(sys_days(2000y / 2 / 29)));
    EXPECT_FALSE(parse_rfc3339("2025-02-29T00:00:00Z"));
    EXPECT_FALSE(parse_rfc3339("1900-02-29T00:00:00Z"));
}

TEST(ParseInstant, RefusesEverythingElse) {
    for (const char* text : {"",
                             "Z",
                             "2025-01-29",
                             "2025-01-29T06:03Z",
                             "2025-01-29T06:03:41",
                             "2025-01-29 06:03:41Z",
                             "2025-01-29T06:03:41z",
                             "2025-01-29T06:03:41.Z",
                             "2025-01-29T06:03:41+1:00",
                             "2025-01-29T06:03:41+0100",
                             "2025-01-29T06:03:41+24:00",
                             "2025-01-29T06:03:41+01:60",
                             "2025-01-29T24:00:00Z",
                             "2025-01-29T06:60:00Z",
                             "2025-01-29T06:03:60Z",
                             "2025-01-29T06:03:41Z ",
                             " 2025-01-29T06:03:41Z",
                             "2025-13-01T00:00:00Z",
                             "2025-00-01T00:00:00Z",
                             "2025-01-00T00:00:00Z",
                             "2025-04-31T00:00:00Z",
                             "+025-01-29T06:03:41Z",
                             "2025-01-2\xC3\xA9T06:03:41Z",
                             "2025-01-29T-6:03:41Z"}) {
        const auto instant = parse_rfc3339(text);
        ASSERT_FALSE(instant) << text;
        EXPECT_EQ(instant.error().kind, ErrorKind::kBadInput);
        EXPECT_NE(instant.error().message.find(text), std::string::npos);
        EXPECT_FALSE(instant.error().hint.empty());
    }
}

TEST(ParseInstant, ReadsNothingPastTheEndOfTheText) {
    const std::string text = "2025-01-29T06:03:41.123+01:00";
    for (std::size_t length = 0; length < text.size(); ++length) {
        // A copy of its own, so that the address sanitizer sees the first byte too many.
        EXPECT_FALSE(parse_rfc3339(std::string(text, 0, length))) << length;
    }
}

TEST(PrintInstant, RoundsToTheSecondAcrossTheYear) {
    EXPECT_EQ(to_rfc3339_utc(kDawn), "2025-01-29T06:03:41Z");
    EXPECT_EQ(to_rfc3339_utc(kDawn + 499ms), "2025-01-29T06:03:41Z");
    EXPECT_EQ(to_rfc3339_utc(sys_days(2024y / 12 / 31) + 23h + 59min + 59s + 501ms), "2025-01-01T00:00:00Z");
    EXPECT_EQ(to_rfc3339_utc(sys_days(2024y / 2 / 29) + 0s), "2024-02-29T00:00:00Z");
    EXPECT_EQ(to_rfc3339_utc(sys_days(1969y / 12 / 31) + 23h), "1969-12-31T23:00:00Z");
}

TEST(PrintInstant, ParsesBackOnEveryDayOfAGregorianCycle) {
    for (auto day = sys_days(1800y / 1 / 1); day < sys_days(2200y / 1 / 1); day += std::chrono::days(1)) {
        const Instant instant = day + 12h + 34min + 56s;
        ASSERT_EQ(parse_rfc3339(to_rfc3339_utc(instant)), instant);
    }
}

TEST(CivilDate, ParsesWhatItPrints) {
    EXPECT_EQ(parse_civil_date("2025-01-29"), CivilDate(2025y / 1 / 29));
    EXPECT_EQ(parse_civil_date("2024-02-29"), CivilDate(2024y / 2 / 29));
    EXPECT_EQ(to_text(CivilDate(2025y / 3 / 7)), "2025-03-07");
    EXPECT_EQ(to_text(CivilDate(800y / 12 / 25)), "0800-12-25");
}

TEST(CivilDate, RefusesDatesThatDoNotExist) {
    for (const char* text : {"", "2025-02-29", "2025-02-30", "2025-06-31", "2025-1-29", "25-01-29",
                             "2025/01/29", "29.01.2025", "2025-01-29T", "2025-01-", "tomorrow"}) {
        const auto date = parse_civil_date(text);
        ASSERT_FALSE(date) << text;
        EXPECT_EQ(date.error().kind, ErrorKind::kBadInput);
    }
}

TEST(Hours, RoundsToTheMillisecond) {
    EXPECT_EQ(hours(1.0), 1h);
    EXPECT_EQ(hours(-0.25), -15min);
    EXPECT_EQ(hours(0.4e-3 / 3600.0), 0ms);
    EXPECT_EQ(hours(0.6e-3 / 3600.0), 1ms);
}

TEST(Hours, MeasuresWhatItMade) {
    EXPECT_DOUBLE_EQ(hours_between(kDawn, kDawn + 90min), 1.5);
    EXPECT_DOUBLE_EQ(hours_between(kDawn + 90min, kDawn), -1.5);
    EXPECT_DOUBLE_EQ(hours_between(kDawn, kDawn + hours(384.125)), 384.125);
}

}  // namespace
}  // namespace gloam
