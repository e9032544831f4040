// Tide tables of an invented port.
#include "tide/table.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <limits>
#include <string>

namespace gloam::tide {
namespace {

using testing::HasSubstr;

Instant at(const char* text) {
    return parse_rfc3339(text).value();
}

const std::string kNote = "# Invented Haven, LAT, Invented Tide Office, 2025-11-01\n";
const std::string kHeader = "time,height_m,kind\n";
const std::string kRows =
    "2026-03-01T00:00:00+01:00,1.0,low\n"
    "2026-03-01T06:00:00+01:00,5.0,high\n"
    "2026-03-01T12:00:00+01:00,1.4,low\n"
    "2026-03-01T18:30:00+01:00,5.6,high\n";

TideTable table() {
    return parse_tide_table(kNote + kHeader + kRows, "haven.csv").value();
}

double height_m(const char* time) {
    return height_at(table(), at(time)).value().metres;
}

TEST(TideTable, TakesPortDatumSourceAndIssueFromItsNote) {
    EXPECT_EQ(table().port, "Invented Haven");
    EXPECT_EQ(table().datum, "LAT");
    EXPECT_EQ(table().source, "Invented Tide Office");
    EXPECT_EQ(to_text(table().issued), "2025-11-01");
}

TEST(TideTable, TakesColumnsInAnyOrderAndOtherLineEnds) {
    const auto read = parse_tide_table(
        "\xEF\xBB\xBF# Invented Haven,LAT,Invented Tide Office,2025-11-01\r\nkind,time,height_m\r\n"
        "low,2026-03-01T00:00:00Z,-0.2\r\nhigh,2026-03-01T06:00:00Z,5\r\n",
        "t");
    ASSERT_TRUE(read) << to_text(read.error());
    EXPECT_EQ(read->rows.front().height_m, -0.2);
}

TEST(TideTable, RunsAsHalfACosineBetweenLowAndHighWater) {
    EXPECT_DOUBLE_EQ(height_m("2026-03-01T00:00:00+01:00"), 1.0);
    EXPECT_NEAR(height_m("2026-03-01T01:00:00+01:00"), 1.0 + 4.0 * 0.066987, 1e-5);
    EXPECT_NEAR(height_m("2026-03-01T03:00:00+01:00"), 3.0, 1e-12);
    EXPECT_NEAR(height_m("2026-03-01T05:00:00+01:00"), 5.0 - 4.0 * 0.066987, 1e-5);
    EXPECT_NEAR(height_m("2026-03-01T09:00:00+01:00"), 3.2, 1e-12);
}

TEST(TideTable, RunsStraightBesideHeights) {
    const auto read = parse_tide_table(kNote + kHeader +
                                           "2026-03-01T00:00:00Z,1.0,low\n"
                                           "2026-03-01T01:00:00Z,1.2,height\n"
                                           "2026-03-01T02:00:00Z,1.8,height\n",
                                       "t");
    ASSERT_TRUE(read) << to_text(read.error());
    EXPECT_NEAR(height_at(*read, at("2026-03-01T00:30:00Z")).value().metres, 1.1, 1e-12);
    EXPECT_NEAR(height_at(*read, at("2026-03-01T01:15:00Z")).value().metres, 1.35, 1e-12);
}

TEST(TideTable, GivesEachHeightItsDatum) {
    EXPECT_EQ(height_at(table(), at("2026-03-01T03:00:00+01:00")).value().datum, "LAT");
}

TEST(TideTable, KnowsNoHeightOutsideItsRows) {
    for (const char* time : {"2026-02-28T23:59:59+01:00", "2026-03-01T18:30:01+01:00"}) {
        const auto height = height_at(table(), at(time));
        ASSERT_FALSE(height) << time;
        EXPECT_EQ(height.error().kind, ErrorKind::kIncomplete);
        EXPECT_EQ(height.error().where, "Invented Haven");
    }
}

TEST(TideTable, FindsTheNextHighAndLowWater) {
    const Instant from = at("2026-03-01T06:00:01+01:00");
    EXPECT_EQ(next_turn(table(), TideKind::kHigh, from)->instant, at("2026-03-01T18:30:00+01:00"));
    EXPECT_EQ(next_turn(table(), TideKind::kLow, from)->instant, at("2026-03-01T12:00:00+01:00"));
    EXPECT_FALSE(next_turn(table(), TideKind::kLow, at("2026-03-01T12:00:01+01:00")));
}

Result<std::optional<Instant>> closing(double metres, const char* from, const char* to,
                                       const char* datum = "LAT") {
    return closing_in(table(), {metres, datum}, {at(from), at(to)});
}

TEST(TideClosing, IsWhenTheRisingWaterReachesTheHeight) {
    EXPECT_EQ(closing(3.0, "2026-03-01T01:00:00+01:00", "2026-03-01T06:00:00+01:00").value(),
              at("2026-03-01T03:00:00+01:00"));
    EXPECT_EQ(closing(2.0, "2026-03-01T01:00:00+01:00", "2026-03-01T06:00:00+01:00").value(),
              at("2026-03-01T02:00:00+01:00"));
}

TEST(TideClosing, IsAtOnceWhereTheWaterStandsAboveTheHeight) {
    const char* from = "2026-03-01T07:00:00+01:00";
    EXPECT_EQ(closing(3.0, from, "2026-03-01T12:00:00+01:00").value(), at(from));
}

TEST(TideClosing, IsThatOfTheNextTideAfterTheFallingOne) {
    EXPECT_EQ(closing(3.5, "2026-03-01T10:00:00+01:00", "2026-03-01T18:00:00+01:00").value(),
              at("2026-03-01T15:15:00+01:00"));
}

TEST(TideClosing, IsAtHighWaterThatJustReachesTheHeight) {
    EXPECT_EQ(closing(5.0, "2026-03-01T01:00:00+01:00", "2026-03-01T08:00:00+01:00").value(),
              at("2026-03-01T06:00:00+01:00"));
}

TEST(TideClosing, IsAbsentWhereTheWaterStaysBelow) {
    EXPECT_EQ(closing(5.1, "2026-03-01T01:00:00+01:00", "2026-03-01T12:00:00+01:00").value(), std::nullopt);
    EXPECT_EQ(closing(3.0, "2026-03-01T00:00:00+01:00", "2026-03-01T03:00:00+01:00").value(), std::nullopt);
}

TEST(TideClosing, NeverComesAfterTheHeightIsReached) {
    const TideTable tides = table();
    for (double metres = 1.41; metres < 5.6; metres += 0.01) {
        const auto closes = closing(metres, "2026-03-01T12:00:00+01:00", "2026-03-01T18:30:00+01:00").value();
        ASSERT_TRUE(closes) << metres;
        EXPECT_LE(height_at(tides, *closes).value().metres, metres + 1e-9);
        EXPECT_GE(height_at(tides, *closes + Duration(2)).value().metres, metres - 1e-9);
    }
}

TEST(TideClosing, RefusesATableThatEndsBeforeItIsTold) {
    const auto closes = closing(5.9, "2026-03-01T12:00:00+01:00", "2026-03-02T06:00:00+01:00");
    ASSERT_FALSE(closes);
    EXPECT_EQ(closes.error().kind, ErrorKind::kIncomplete);
    EXPECT_TRUE(closing(5.0, "2026-03-01T12:00:00+01:00", "2026-03-02T06:00:00+01:00"));
}

TEST(TideClosing, RefusesASpanThatBeginsOutsideTheTable) {
    for (const char* from : {"2026-02-28T12:00:00+01:00", "2026-03-02T12:00:00+01:00"}) {
        EXPECT_EQ(closing(3.0, from, "2026-03-03T06:00:00+01:00").error().kind, ErrorKind::kIncomplete);
    }
}

TEST(TideClosing, RefusesAnotherOrUnknownDatum) {
    for (const char* datum : {"MSL", "", "unknown", "lat", "LAT ", "LAT\n"}) {
        const auto closes = closing(3.0, "2026-03-01T01:00:00+01:00", "2026-03-01T06:00:00+01:00", datum);
        ASSERT_FALSE(closes) << datum;
        EXPECT_EQ(closes.error().kind, ErrorKind::kBadInput);
    }
}

TEST(TideClosing, RefusesAHeightThatIsNoNumber) {
    for (const double metres :
         {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
        EXPECT_EQ(closing(metres, "2026-03-01T01:00:00+01:00", "2026-03-01T06:00:00+01:00").error().kind,
                  ErrorKind::kBadInput);
    }
}

struct Hostile {
    const char* name;
    std::string text;
    const char* complaint;
};

class HostileTideTable : public testing::TestWithParam<Hostile> {};

TEST_P(HostileTideTable, IsRefusedWithItsPlace) {
    const auto read = parse_tide_table(GetParam().text, "haven.csv");
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().kind, ErrorKind::kUnreadable);
    EXPECT_THAT(read.error().message, HasSubstr(GetParam().complaint));
    EXPECT_THAT(read.error().where, HasSubstr("haven.csv"));
}

std::string with_row(const std::string& row) {
    return kNote + kHeader + kRows + row + "\n";
}

INSTANTIATE_TEST_SUITE_P(
    Of, HostileTideTable,
    testing::Values(
        Hostile{"nothing", "", "no note"}, Hostile{"no_note", kHeader + kRows, "no note"},
        Hostile{"short_note", "# Invented Haven, LAT, 2025-11-01\n" + kHeader + kRows, "no note"},
        Hostile{"comma_in_source", "# Haven, LAT, Office, Harbour, 2025-11-01\n" + kHeader + kRows,
                "no note"},
        Hostile{"no_port", "# , LAT, Invented Tide Office, 2025-11-01\n" + kHeader + kRows, "no port"},
        Hostile{"no_datum", "# Haven, , Invented Tide Office, 2025-11-01\n" + kHeader + kRows, "'' is not"},
        Hostile{"unknown_datum", "# Haven, unknown, Office, 2025-11-01\n" + kHeader + kRows, "'unknown'"},
        Hostile{"unknown_datum_in_capitals", "# Haven, UNKNOWN, Office, 2025-11-01\n" + kHeader + kRows,
                "'UNKNOWN'"},
        Hostile{"two_datums_in_one", "# Haven, LAT/MSL, Office, 2025-11-01\n" + kHeader + kRows,
                "'LAT/MSL' is not a datum"},
        Hostile{"two_datums", kNote + "# Haven, MSL, Office, 2025-11-01\n" + kHeader + kRows, "second note"},
        Hostile{"second_note_below", with_row("# Haven, MSL, Office, 2025-11-01"), "second note"},
        Hostile{"no_such_date", "# Haven, LAT, Office, 2025-02-30\n" + kHeader + kRows, "2025-02-30"},
        Hostile{"no_header", kNote + kRows, "no column 'time'"},
        Hostile{"feet", kNote + "time,height_ft,kind\n" + kRows, "no column 'height_m'"},
        Hostile{"feet_as_metres", with_row("2026-03-02T00:40:00+01:00,-28,low"), "no tide stands at -28 m"},
        Hostile{"note_alone", kNote, "empty"}, Hostile{"no_rows", kNote + kHeader, "fewer than two rows"},
        Hostile{"one_row", kNote + kHeader + "2026-03-01T00:00:00Z,1.0,low\n", "fewer than two rows"},
        Hostile{"cut_in_a_time", with_row("2026-03-02T00:4"), "1 fields"},
        Hostile{"cut_in_a_kind", with_row("2026-03-02T00:40:00+01:00,1.1,lo"), "'lo'"},
        Hostile{"no_offset", with_row("2026-03-02T00:40:00,1.1,low"), "not a time with offset"},
        Hostile{"nan", with_row("2026-03-02T00:40:00+01:00,nan,low"), "'nan' is not a number"},
        Hostile{"infinite", with_row("2026-03-02T00:40:00+01:00,inf,low"), "'inf' is not a number"},
        Hostile{"decimal_comma", with_row("2026-03-02T00:40:00+01:00,1,1,low"), "4 fields"},
        Hostile{"same_time", with_row("2026-03-01T18:30:00+01:00,5.5,height"), "not after"},
        Hostile{"wrong_order", with_row("2026-03-01T17:00:00+01:00,1.1,low"), "not after"},
        Hostile{"two_highs", with_row("2026-03-02T07:00:00+01:00,5.5,high"), "two high or two low"},
        Hostile{"low_above_high", with_row("2026-03-02T00:40:00+01:00,5.7,low"), "does not stand above"},
        Hostile{"low_level_with_high", with_row("2026-03-02T00:40:00+01:00,5.6,low"), "does not stand above"},
        Hostile{"lost_turns", with_row("2026-03-02T13:10:00+01:00,1.1,low"), "over 18 hours"},
        Hostile{"sparse_heights", with_row("2026-03-01T19:31:00+01:00,5.5,height"), "over one hour"},
        Hostile{"zero_bytes", kNote + std::string(64, '\0'), "no column"}),
    [](const auto& one) { return one.param.name; });

TEST(TideTable, IsRefusedWhenHuge) {
    const auto read = parse_tide_table(std::string(9U << 20U, '#'), "haven.csv");
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().kind, ErrorKind::kUnsupported);
}

TEST(TideTable, IsReadOrRefusedWhereverItIsCut) {
    const std::string whole = kNote + kHeader + kRows;
    for (std::size_t length = 0; length < whole.size(); ++length) {
        const auto read = parse_tide_table(whole.substr(0, length), "haven.csv");
        EXPECT_TRUE(!read || read->rows.size() < 4 || length + 1 == whole.size()) << length;
    }
}

TEST(TideTable, IsReadInOrderOrRefusedWithAnyByteSpoilt) {
    const std::string whole = kNote + kHeader + kRows;
    for (std::size_t place = 0; place < whole.size(); ++place) {
        for (const char c : {'\0', '\n', ',', '#', '9', '-', '\xff'}) {
            std::string spoilt = whole;
            spoilt[place] = c;
            const auto read = parse_tide_table(spoilt, "haven.csv");
            EXPECT_TRUE(!read || std::ranges::is_sorted(read->rows, {}, &TideRow::instant)) << place;
        }
    }
}

}  // namespace
}  // namespace gloam::tide
