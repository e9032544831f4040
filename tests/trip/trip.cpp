#include "trip/trip.hpp"

#include <gmock/gmock.h>

#include <set>

#include "trip/words.hpp"

namespace gloam::trip {
namespace {

using namespace std::chrono_literals;

TEST(ClockTime, IsReadAndPrinted) {
    EXPECT_EQ(parse_clock_time("00:00"), 0min);
    EXPECT_EQ(parse_clock_time("23:59"), 23h + 59min);
    EXPECT_EQ(to_text(ClockTime(6h + 5min)), "06:05");
}

TEST(ClockTime, OfAnotherFormIsRefused) {
    for (const char* text :
         {"", "6:40", "06:40:00", "24:00", "06:60", "06-40", "-1:30", "0x:10", " 6:40", "06: 4"}) {
        EXPECT_FALSE(parse_clock_time(text)) << text;
    }
}

TEST(LocalMoment, IsReadAndPrinted) {
    EXPECT_EQ(to_text(parse_local_moment("2025-01-29 06:40").value()), "2025-01-29 06:40");
}

TEST(LocalMoment, OfAnotherFormIsRefused) {
    for (const char* text :
         {"", "2025-01-29", "06:40", "2025-02-30 06:40", "2025-01-29T06:40", "2025-01-29 06:40 "}) {
        EXPECT_FALSE(parse_local_moment(text)) << text;
    }
}

template <class Kind>
void expect_own_words() {
    std::set<std::string_view> words;
    for (const auto& [kind, word] : words_of(Kind{})) {
        words.insert(word);
        EXPECT_EQ(from_word<Kind>(word_of(kind)), kind);
    }
    EXPECT_EQ(words.size(), words_of(Kind{}).size());
    EXPECT_EQ(from_word<Kind>("lava"), std::nullopt);
}

TEST(Words, StandForOneValueEach) {
    expect_own_words<sky::Ground>();
    expect_own_words<Water>();
    expect_own_words<LegKind>();
    expect_own_words<PlaceTag>();
    expect_own_words<Finder>();
}

}  // namespace
}  // namespace gloam::trip
