#include <gmock/gmock.h>

#include "journal/journal.hpp"
#include "made_calls.hpp"
#include "support/folder.hpp"

namespace gloam::journal {
namespace {

using gloam::test::Folder;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// A trip of some days, all of it invented.
trip::Trip days(std::string name, const char* start, const char* end) {
    trip::Trip trip;
    trip.name = std::move(name);
    trip.start = parse_civil_date(start).value();
    trip.end = parse_civil_date(end).value();
    return trip;
}

TEST(JournalTrip, IsFoundAsItWasStored) {
    const Folder folder;
    Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    const trip::Trip trip = test::full_trip();
    ASSERT_TRUE(store_trip(journal, trip));
    EXPECT_EQ(trip::to_toml(find_trip(journal, "Invented week").value().value()), trip::to_toml(trip));
}

TEST(JournalTrip, IsThereWhenTheJournalIsOpenedAgain) {
    const Folder folder;
    const trip::Trip trip = test::full_trip();
    {
        Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
        ASSERT_TRUE(store_trip(journal, trip));
    }
    const Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    EXPECT_EQ(trip::to_toml(find_trip(journal, "Invented week").value().value()), trip::to_toml(trip));
}

TEST(JournalTrip, OfABareNameStaysBare) {
    const Folder folder;
    Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    trip::Trip bare;
    bare.name = "Bare";
    ASSERT_TRUE(store_trip(journal, bare));
    EXPECT_EQ(trip::to_toml(find_trip(journal, "Bare").value().value()), trip::to_toml(bare));
}

TEST(JournalTrip, OfNoSuchNameIsAbsent) {
    const Folder folder;
    const Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    EXPECT_EQ(find_trip(journal, "Nowhere").value(), std::nullopt);
}

TEST(JournalTrip, IsReplacedByAnotherOfItsName) {
    const Folder folder;
    Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    ASSERT_TRUE(store_trip(journal, test::full_trip()));
    trip::Trip other = test::full_trip();
    other.places[0].stands.clear();
    other.group.guests.erase(other.group.guests.begin());
    ASSERT_TRUE(store_trip(journal, other));
    EXPECT_EQ(trip::to_toml(find_trip(journal, "Invented week").value().value()), trip::to_toml(other));
}

TEST(JournalTrip, KeepsTheZoneOfEachPlace) {
    const Folder folder;
    Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    trip::Trip trip = test::full_trip();
    trip.places.push_back(trip.places[0]);
    trip.places[1].name = "Over the border";
    trip.places[1].zone = "Europe/Athens";
    ASSERT_TRUE(store_trip(journal, trip));
    const trip::Trip found = find_trip(journal, trip.name).value().value();
    EXPECT_EQ(found.zone, "Europe/Rome");
    EXPECT_EQ(found.places[0].zone, "Europe/Malta");
    EXPECT_EQ(found.places[1].zone, "Europe/Athens");
}

TEST(JournalTrip, TellsWhichOthersShareItsDays) {
    const Folder folder;
    Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    EXPECT_THAT(store_trip(journal, days("first", "2025-01-01", "2025-01-07")).value(), IsEmpty());
    EXPECT_THAT(store_trip(journal, days("next", "2025-01-08", "2025-01-14")).value(), IsEmpty());
    EXPECT_THAT(store_trip(journal, days("across", "2025-01-07", "2025-01-08")).value(),
                ElementsAre("first", "next"));
    EXPECT_THAT(store_trip(journal, days("first", "2025-01-01", "2025-01-06")).value(), IsEmpty());
}

TEST(JournalTrip, WithGuestsNeedsAnEnd) {
    const Folder folder;
    Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    trip::Trip endless = test::full_trip();
    endless.end.reset();
    const auto stored = store_trip(journal, endless);
    ASSERT_FALSE(stored);
    EXPECT_EQ(stored.error().kind, ErrorKind::kBadInput);
    EXPECT_THAT(stored.error().hint, HasSubstr("end ="));
}

TEST(JournalTrip, StandsInTheListByItsFirstDay) {
    const Folder folder;
    Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    trip::Trip bare;
    bare.name = "a trip without days";
    ASSERT_TRUE(store_trip(journal, bare));
    ASSERT_TRUE(store_trip(journal, days("later", "2025-03-01", "2025-03-02")));
    ASSERT_TRUE(store_trip(journal, test::full_trip()));
    ASSERT_TRUE(record_call(journal, test::invented_call()));
    const std::vector<TripLine> lines = list_trips(journal).value();
    ASSERT_EQ(lines.size(), 3U);
    EXPECT_EQ(lines[0].name, "Invented week");
    EXPECT_EQ(lines[0].places, 1);
    EXPECT_EQ(lines[0].calls, 1);
    EXPECT_EQ(lines[1].name, "later");
    EXPECT_EQ(lines[2].start, std::nullopt);
}

}  // namespace
}  // namespace gloam::journal
