// From the leader's notes of an invented place to instants.
#include "decide/outing.hpp"

#include <gmock/gmock.h>

namespace gloam::decide {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

const geo::Zone kRome = geo::Zone::named("Europe/Rome").value();

Instant at(std::string_view time) {
    return parse_rfc3339(time).value();
}

trip::Place gated(std::optional<trip::ClockTime> opens, std::optional<trip::ClockTime> closes) {
    trip::Place place;
    place.gates = {{"gate", opens, closes}};
    return place;
}

ChainGate gate(std::optional<trip::ClockTime> opens, std::optional<trip::ClockTime> closes,
               std::string_view when) {
    return gates_about(gated(opens, closes), kRome, at(when)).front();
}

TEST(Gates, ThatAreOpenCloseNext) {
    const ChainGate open = gate(hours(5), hours(22), "2025-01-29T06:00:00+01:00");
    EXPECT_EQ(open.opens, at("2025-01-29T05:00:00+01:00"));
    EXPECT_EQ(open.closes, at("2025-01-29T22:00:00+01:00"));
}

TEST(Gates, ThatAreShutOpenNext) {
    const ChainGate shut = gate(hours(8), hours(18), "2025-01-29T06:00:00+01:00");
    EXPECT_EQ(shut.opens, at("2025-01-29T08:00:00+01:00"));
    EXPECT_EQ(shut.closes, at("2025-01-29T18:00:00+01:00"));
}

TEST(Gates, OpenPastMidnightAreOpenAfterIt) {
    const ChainGate late = gate(hours(14), hours(2), "2025-01-29T01:00:00+01:00");
    EXPECT_EQ(late.opens, at("2025-01-28T14:00:00+01:00"));
    EXPECT_EQ(late.closes, at("2025-01-29T02:00:00+01:00"));
}

TEST(Gates, WithOneTimeHoldItOnTheDay) {
    EXPECT_FALSE(gate(std::nullopt, hours(20), "2025-01-29T06:00:00+01:00").opens);
    EXPECT_EQ(gate(std::nullopt, hours(20), "2025-01-29T06:00:00+01:00").closes,
              at("2025-01-29T20:00:00+01:00"));
    EXPECT_FALSE(gate(hours(7), std::nullopt, "2025-01-29T06:00:00+01:00").closes);
}

TEST(Gates, AtATimeThatTheClockSkipsOpenWhenItIsPutForward) {  // 2025-03-30, 02:00 to 03:00
    EXPECT_EQ(gate(hours(2) + minutes(30), hours(20), "2025-03-30T06:00:00+02:00").opens,
              at("2025-03-30T03:00:00+02:00"));
}

TEST(Gates, AtATimeThatTheClockShowsTwiceOpenTheFirstTime) {  // 2025-10-26, 03:00 back to 02:00
    EXPECT_EQ(gate(hours(2) + minutes(30), hours(20), "2025-10-26T06:00:00+01:00").opens,
              at("2025-10-26T02:30:00+02:00"));
}

trip::Place tidal(std::vector<trip::LocalMoment> closes) {
    trip::Place place;
    place.tide_closes = std::move(closes);
    return place;
}

TEST(TideClosing, IsTheFirstOneFromTheStandTimeOn) {
    const CivilDate date = std::chrono::year(2025) / 1 / 29;
    const trip::Place place = tidal({{date, hours(20)}, {date, hours(7) + minutes(40)}, {date, hours(1)}});
    EXPECT_EQ(tide_closing_after(place, kRome, at("2025-01-29T06:00:00+01:00")),
              at("2025-01-29T07:40:00+01:00"));
    EXPECT_EQ(tide_closing_after(place, kRome, at("2025-01-29T08:00:00+01:00")),
              at("2025-01-29T20:00:00+01:00"));
}

TEST(TideClosing, OfAnotherDayIsNone) {
    const trip::Place place = tidal({{std::chrono::year(2025) / 1 / 30, hours(7)}});
    EXPECT_FALSE(tide_closing_after(place, kRome, at("2025-01-29T06:00:00+01:00")));
}

TEST(Legs, TakeTheTypedMinutesElseNaismiths) {
    trip::AccessLeg typed;
    typed.minutes = 12.0;
    trip::AccessLeg walk;
    walk.distance_m = 1000.0;
    walk.climb_m = 50.0;
    walk.descent_m = 20.0;
    trip::Place place;
    place.access = {typed, walk};
    trip::Group slow;
    slow.slowest_kmh = 2.0;
    const auto legs = legs_of(place, slow);
    EXPECT_EQ(legs[0].out, minutes(12));
    EXPECT_EQ(legs[1].out, minutes(35));
    EXPECT_EQ(legs[1].back, minutes(32));
    EXPECT_EQ(legs_of(place, {})[1].out, minutes(20));
}

TEST(ChainLinks, AreTheTripsWhereItSetsThem) {
    trip::Trip trip;
    trip.chain.settle_min = 15.0;
    trip.chain.dark_factor = 2.0;
    trip.group.size = 10;
    const ChainLinks links = chain_links_of(trip, {});
    EXPECT_EQ(links.settle, minutes(15));
    EXPECT_EQ(links.dark_factor, 2.0);
    EXPECT_EQ(links.load, minutes(12));
    EXPECT_EQ(links.wake_to_door, minutes(30));
}

}  // namespace
}  // namespace gloam::decide
