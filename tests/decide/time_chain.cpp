#include "decide/time_chain.hpp"

#include <gmock/gmock.h>

namespace gloam::decide {
namespace {

using std::chrono::minutes;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using trip::LegKind;

Instant at(int hour, int minute) {
    return std::chrono::sys_days(std::chrono::year(2026) / 3 / 20) + std::chrono::hours(hour) +
           minutes(minute);
}

/// The worked morning: sunrise 07:00, 30 min of driving, 1.2 km with 60 m of climb.
ChainEvent worked_morning() {
    ChainEvent event;
    event.sun = at(7, 0);
    event.over = at(7, 20);
    event.civil = at(6, 26);
    const Duration walk = walking_time(1200.0, 60.0, 4.0);
    event.legs = {{"drive", LegKind::kDrive, minutes(30), minutes(30)},
                  {"path", LegKind::kWalk, walk, walking_time(1200.0, 0.0, 4.0)}};
    return event;
}

TEST(WalkingTime, IsNaismiths) {
    EXPECT_EQ(walking_time(1200.0, 60.0, 4.0), minutes(24));
    EXPECT_EQ(walking_time(1000.0, 0.0, 4.0), minutes(15));
    EXPECT_EQ(walking_time(1000.0, 0.0, 2.0), minutes(30));
}

TEST(TimeChain, OfTheWorkedMorningIsItsOwn) {
    const TimeChain chain = time_chain(worked_morning(), {});
    EXPECT_EQ(chain.first_colour, at(6, 15));
    EXPECT_EQ(chain.stand, at(6, 5));
    EXPECT_EQ(chain.out[1].from, at(5, 29)) << "36 min in the dark";
    EXPECT_EQ(chain.leave, at(4, 59));
    EXPECT_EQ(chain.doors, at(4, 49));
    EXPECT_EQ(chain.wake, at(4, 19));
    EXPECT_EQ(chain.look, at(3, 59));
}

TEST(TimeChain, RunsForwardToTheBaseInDaylight) {
    const TimeChain chain = time_chain(worked_morning(), {});
    EXPECT_EQ(chain.leave_stand, at(7, 20));
    EXPECT_EQ(chain.back.front().to, at(7, 38)) << "18 min downhill, not in the dark";
    EXPECT_EQ(chain.at_base, at(8, 8));
    EXPECT_EQ(chain.limit, StayLimit::kLight);
}

TEST(TimeChain, RoundsToTheCarefulSide) {
    ChainEvent event = worked_morning();
    event.sun += std::chrono::seconds(59);
    event.over += std::chrono::seconds(1);
    const TimeChain chain = time_chain(event, {});
    EXPECT_EQ(chain.stand, at(6, 5));
    EXPECT_EQ(chain.wake, at(4, 19));
    EXPECT_EQ(chain.leave_stand, at(7, 21));
}

TEST(TimeChain, HangsOnTheSlowestWalkerAndTheParty) {
    ChainEvent slow = worked_morning();
    slow.legs[1].out = walking_time(1200.0, 60.0, 3.0);
    EXPECT_EQ(time_chain(worked_morning(), {}).leave - time_chain(slow, {}).leave, minutes(9));
    ChainLinks crowd;
    crowd.load = load_of(minutes(10), 12);
    EXPECT_EQ(time_chain(worked_morning(), crowd).wake, at(4, 15));
    EXPECT_EQ(load_of(minutes(10), 6), minutes(10));
}

TEST(TimeChain, OfADuskWalksBackInTheDark) {
    ChainEvent event = worked_morning();
    event.dawn = false;
    event.civil = at(7, 10);
    const TimeChain chain = time_chain(event, {});
    EXPECT_FALSE(chain.out[1].dark);
    EXPECT_TRUE(chain.back.front().dark);
    EXPECT_EQ(chain.back.front().to - chain.back.front().from, minutes(27));
}

TEST(TimeChain, LeavesTheStandBeforeTheTideClosesThePath) {
    ChainEvent event = worked_morning();
    event.tide_closes = at(8, 30);
    const TimeChain chain = time_chain(event, {});
    EXPECT_EQ(chain.leave_stand, at(7, 6)) << "08:30 less 1.5 x 36 min less 30 min";
    EXPECT_EQ(chain.limit, StayLimit::kTide);
}

TEST(TimeChain, KeepsTheLongerOfTheTwoWalksFromTheTide) {  // down at dusk, up in the dark
    ChainEvent event = worked_morning();
    event.dawn = false;
    event.civil = at(7, 10);
    event.legs[1].out = minutes(15);
    event.legs[1].back = minutes(45);
    event.tide_closes = at(12, 0);
    EXPECT_EQ(time_chain(event, {}).tide_limit, at(9, 48))
        << "12:00 less 1.5 x 68 min less 30 min, to the minute";
}

TEST(TimeChain, TellsByItsTimesThatTheTideLeavesNoStay) {
    ChainEvent event = worked_morning();
    event.tide_closes = at(7, 0);
    const TimeChain chain = time_chain(event, {});
    EXPECT_LT(chain.leave_stand, chain.stand);
}

TEST(TimeChain, IsThroughAGateBeforeItCloses) {
    ChainEvent event = worked_morning();
    event.gates = {{"car park", std::nullopt, at(7, 30)}};
    const TimeChain chain = time_chain(event, {});
    EXPECT_EQ(chain.limit, StayLimit::kGate);
    EXPECT_LE(chain.back.front().to, at(7, 30));
}

TEST(TimeChain, IsBackByTheDriversLimit) {
    ChainEvent event = worked_morning();
    event.back_by = at(7, 50);
    const TimeChain chain = time_chain(event, {});
    EXPECT_EQ(chain.limit, StayLimit::kDriver);
    EXPECT_LE(chain.at_base, at(7, 50));
}

TEST(TimeChain, NamesGatesThatAreShutOnTheWayOut) {
    ChainEvent event = worked_morning();
    event.gates = {{"estate", at(8, 0), std::nullopt}, {"quay", at(5, 0), at(22, 0)}};
    EXPECT_THAT(time_chain(event, {}).shut_gates, ElementsAre("estate"));
}

TEST(TimeChain, CountsTheSleepLeftSinceTheEveningBefore) {
    ChainEvent event = worked_morning();
    event.previous_return = at(0, 0) - minutes(90);
    EXPECT_EQ(time_chain(event, {}).sleep, minutes(349));
    event.previous_return = std::nullopt;
    EXPECT_FALSE(time_chain(event, {}).sleep);
}

TEST(TimeChain, WithoutALegIsAtTheDoorOfTheBase) {
    ChainEvent event = worked_morning();
    event.legs.clear();
    const TimeChain chain = time_chain(event, {});
    EXPECT_EQ(chain.leave, chain.stand);
    EXPECT_EQ(chain.doors, chain.stand) << "nothing to load";
    EXPECT_EQ(chain.at_base, chain.leave_stand);
    EXPECT_THAT(chain.back, IsEmpty());
}

}  // namespace
}  // namespace gloam::decide
