#include "geo/zone_of_place.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <set>
#include <string>

namespace gloam::geo {
namespace {

using ::testing::HasSubstr;

const Instant kSummer = parse_rfc3339("2026-07-01T00:00:00Z").value();
const Instant kWinter = parse_rfc3339("2026-01-01T00:00:00Z").value();

/// A row of a GeoNames table with nothing in the columns that are not read.
std::string row(std::string_view name, double lat_deg, double lon_deg, std::string_view zone) {
    return fmt::format("1\t{}\t\t\t{}\t{}\tP\tPPL\tXX\t\t\t\t\t\t1\t\t1\t{}\t2020-01-01\n", name, lat_deg,
                       lon_deg, zone);
}

TEST(ZoneOfNearestTown, TakesTheNearest) {
    const std::string cities =
        row("Syracuse", 37.07, 15.29, "Europe/Rome") + row("Valletta", 35.90, 14.51, "Europe/Malta");
    const auto guess = zone_of_nearest_town({37.0, 15.3}, kSummer, cities).value();
    EXPECT_EQ(guess.zone.name(), "Europe/Rome");
    EXPECT_EQ(guess.town, "Syracuse");
    EXPECT_NEAR(guess.distance_m, 7.8e3, 0.1e3);
}

TEST(ZoneOfNearestTown, LooksAcrossTheDateLine) {
    const auto guess =
        zone_of_nearest_town({-16.85, -179.95}, kSummer, row("Taveuni", -16.85, 179.95, "Pacific/Fiji"))
            .value();
    EXPECT_NEAR(guess.distance_m, 10.7e3, 0.1e3);
}

TEST(ZoneOfNearestTown, RefusesATownBeyond150Kilometres) {
    const auto far =
        zone_of_nearest_town({50.0, -30.0}, kSummer, row("Horta", 38.53, -28.63, "Atlantic/Azores"));
    ASSERT_FALSE(far);
    EXPECT_EQ(far.error().kind, ErrorKind::kNotFound);
    EXPECT_THAT(far.error().message, HasSubstr("Horta"));
    EXPECT_THAT(far.error().hint, HasSubstr("IANA"));
    EXPECT_TRUE(
        zone_of_nearest_town({39.86, -28.63}, kSummer, row("Horta", 38.53, -28.63, "Atlantic/Azores")));
    EXPECT_FALSE(
        zone_of_nearest_town({39.89, -28.63}, kSummer, row("Horta", 38.53, -28.63, "Atlantic/Azores")));
}

TEST(ZoneOfNearestTown, RefusesWhenANeighbourTownKeepsOtherTime) {
    const std::string cities = row("Tornio", 65.848, 24.147, "Europe/Helsinki") +
                               row("Haparanda", 65.836, 24.137, "Europe/Stockholm");
    const auto torn = zone_of_nearest_town({65.85, 24.15}, kSummer, cities);
    ASSERT_FALSE(torn);
    EXPECT_EQ(torn.error().kind, ErrorKind::kIncomplete);
    EXPECT_THAT(torn.error().message, HasSubstr("Haparanda"));
}

TEST(ZoneOfNearestTown, OnlyTheClocksAtThatMomentMatter) {
    // Arizona keeps standard time: in winter its clocks agree with Utah's.
    const std::string cities = row("Page", 36.915, -111.456, "America/Phoenix") +
                               row("Big Water", 37.077, -111.664, "America/Denver");
    EXPECT_TRUE(zone_of_nearest_town({37.0, -111.55}, kWinter, cities));
    EXPECT_FALSE(zone_of_nearest_town({37.0, -111.55}, kSummer, cities));
}

TEST(ZoneOfNearestTown, AnotherZoneFarEnoughAwayDoesNotMatter) {
    const std::string cities = row("A", 50.0, 10.0, "Europe/Berlin") + row("B", 50.0, 10.5, "Europe/London");
    EXPECT_TRUE(zone_of_nearest_town({50.0, 10.0}, kSummer, cities)) << "36 km is more than 10 km";
    EXPECT_FALSE(zone_of_nearest_town({50.0, 10.2}, kSummer, cities))
        << "22 km is less than 1.5 x 14 km + 10 km";
}

TEST(ZoneOfNearestTown, DistrustsItsTable) {
    const auto kind_of = [](const std::string& cities) {
        return zone_of_nearest_town({0.0, 0.0}, kSummer, cities).error().kind;
    };
    EXPECT_EQ(kind_of(""), ErrorKind::kNotFound);
    EXPECT_EQ(kind_of("\n"), ErrorKind::kUnreadable);
    EXPECT_EQ(kind_of("a\tb\n"), ErrorKind::kUnreadable);
    EXPECT_EQ(kind_of(row("A", 91.0, 0.0, "UTC")), ErrorKind::kUnreadable);
    EXPECT_EQ(kind_of(row("A", 0.0, 0.0, "UTC") + "x\t"), ErrorKind::kUnreadable);
    EXPECT_EQ(kind_of(row("A", 0.0, 0.0, "Mars/Olympus")), ErrorKind::kNotFound);
    const auto bad =
        zone_of_nearest_town({0.0, 0.0}, kSummer, row("A", 0.0, 0.0, "UTC") + row("B", 0, 999, "UTC"));
    EXPECT_THAT(bad.error().where, HasSubstr("line 2"));
}

TEST(ZoneOfNearestTown, ATableOf25000TownsTakesMilliseconds) {
    std::string cities;
    for (int i = 0; i < 25'000; ++i) {
        cities += row("Some town or other in the table of towns", i % 170 - 85, i % 359 - 179, "Europe/Rome");
    }
    const auto start = std::chrono::steady_clock::now();
    const auto guess = zone_of_nearest_town({45.0, 10.0}, kSummer, cities);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    RecordProperty("milliseconds", std::to_string(took.count()));
    std::printf("25000 towns: %.1f ms\n", took.count());
    EXPECT_LT(took.count(), 1000.0) << "some 10 ms on an idle machine; far more is allowed on a busy one";
}

}  // namespace
}  // namespace gloam::geo
