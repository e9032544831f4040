#include <gmock/gmock.h>

#include <iterator>

#include "journal/journal.hpp"
#include "made_calls.hpp"
#include "support/folder.hpp"

namespace gloam::journal {
namespace {

using gloam::test::Folder;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

std::string content_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

/// What the files of a journal hold, the log included.
std::string bytes_of(const Folder& folder) {
    return content_of(folder / "journal.sqlite") + content_of(folder / "journal.sqlite-wal");
}

Journal open(const Folder& folder, Instant now = test::kDuringTrip) {
    return open_journal(folder / "journal.sqlite", now).value();
}

/// A call that speaks of the guests.
CallRecord call_with_names() {
    CallRecord call = test::invented_call();
    call.output = "Guest One and Guest Two are called; Guest Twosome is nobody.\n";
    call.inputs = "{\"party\":[\"Guest One\"]}";
    return call;
}

TEST(Forgetting, TakesTheGuestsAndLeavesTheTrip) {
    const Folder folder;
    Journal journal = open(folder);
    ASSERT_TRUE(store_trip(journal, test::full_trip()));
    EXPECT_TRUE(forget_people(journal, "Invented week", test::kDuringTrip).value());
    trip::Trip expected = test::full_trip();
    expected.group.guests.clear();
    expected.plan_holder.reset();
    EXPECT_EQ(trip::to_toml(find_trip(journal, "Invented week").value().value()), trip::to_toml(expected));
    EXPECT_EQ(list_trips(journal).value().at(0).forgotten, test::kDuringTrip);
}

TEST(Forgetting, FindsNoTripOfAnotherName) {
    const Folder folder;
    Journal journal = open(folder);
    EXPECT_FALSE(forget_people(journal, "Nowhere", test::kDuringTrip).value());
}

TEST(Forgetting, HappensWhenTheJournalIsOpenedADayPastTheEnd) {
    const Folder folder;
    {
        Journal journal = open(folder);
        ASSERT_TRUE(store_trip(journal, test::full_trip()));
    }
    const auto guests_at = [&](const char* now) {
        const Journal journal = open(folder, test::instant(now));
        return find_trip(journal, "Invented week").value().value().group.guests.size();
    };
    EXPECT_EQ(guests_at("2025-02-02T23:59:59Z"), 2U);
    EXPECT_EQ(guests_at("2025-02-03T00:00:00Z"), 0U);
}

TEST(Forgetting, LeavesNoNameInTheFiles) {
    const Folder folder;
    Journal journal = open(folder);
    ASSERT_TRUE(store_trip(journal, test::full_trip()));
    const std::int64_t call = record_call(journal, call_with_names()).value();
    ASSERT_TRUE(record_overrule(journal, call, {test::kDuringTrip, "stay", "Guest One is unwell"}));
    ASSERT_TRUE(amend_call(journal, call, {test::kDuringTrip, "Guest Two saw class 3"}));
    ASSERT_TRUE(record_dismissal(journal, test::dawn_at_salt_steps(),
                                 {test::kDuringTrip, "walk in the dark", "Guest Two leads"}));
    ASSERT_THAT(bytes_of(folder), HasSubstr("Guest One"));
    ASSERT_TRUE(forget_people(journal, "Invented week", test::kDuringTrip));
    EXPECT_THAT(bytes_of(folder), Not(HasSubstr("Guest One")));
    EXPECT_THAT(bytes_of(folder), Not(HasSubstr("the night porter")));
    EXPECT_THAT(bytes_of(folder), HasSubstr("Guest Twosome"));
}

TEST(Forgetting, LetsCallsSpeakOfNumbers) {
    const Folder folder;
    Journal journal = open(folder);
    ASSERT_TRUE(store_trip(journal, test::full_trip()));
    const std::int64_t id = record_call(journal, call_with_names()).value();
    EXPECT_EQ(find_call(journal, id).value().value().record.output, call_with_names().output);
    EXPECT_EQ(find_call(journal, id).value().value().record.inputs, call_with_names().inputs);
    ASSERT_TRUE(forget_people(journal, "Invented week", test::kDuringTrip));
    EXPECT_EQ(find_call(journal, id).value().value().record.output,
              "guest 1 and guest 2 are called; Guest Twosome is nobody.\n");
}

TEST(Forgetting, GivesNoNumberTwice) {
    const Folder folder;
    Journal journal = open(folder);
    ASSERT_TRUE(store_trip(journal, test::full_trip()));
    const std::int64_t id = record_call(journal, call_with_names()).value();
    ASSERT_TRUE(forget_people(journal, "Invented week", test::kDuringTrip));
    trip::Trip others = test::full_trip();
    others.group.guests[0].name = "Somebody Else";
    ASSERT_TRUE(store_trip(journal, others));
    EXPECT_THAT(find_call(journal, id).value().value().record.output, HasSubstr("guest 1 and guest 2"));
}

TEST(Forgetting, KeepsTheNumberOfAGuestWhoStays) {
    const Folder folder;
    Journal journal = open(folder);
    ASSERT_TRUE(store_trip(journal, test::full_trip()));
    const std::int64_t id = record_call(journal, call_with_names()).value();
    trip::Trip turned = test::full_trip();
    std::swap(turned.group.guests[0], turned.group.guests[1]);
    ASSERT_TRUE(store_trip(journal, turned));
    EXPECT_EQ(find_call(journal, id).value().value().record.output, call_with_names().output);
    EXPECT_EQ(find_trip(journal, "Invented week").value().value().group.guests[0].name, "Guest Two");
}

TEST(Forgetting, LeavesTextThatOnlyLooksLikeAMarkAlone) {
    const Folder folder;
    Journal journal = open(folder);
    ASSERT_TRUE(store_trip(journal, test::full_trip()));
    CallRecord call = test::invented_call();
    call.output =
        "\x1a"
        "7 \x1a\x1a \x1ax\x1a \x1a"
        "99999999999999999999\x1a end \x1a";
    const std::int64_t id = record_call(journal, call).value();
    EXPECT_EQ(find_call(journal, id).value().value().record.output, call.output);
}

}  // namespace
}  // namespace gloam::journal
