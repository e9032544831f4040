#include "base/kinds.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "base/check.hpp"

namespace gloam {
namespace {

TEST(Azimuth, WrapsIntoOneTurn) {
    EXPECT_EQ(Azimuth::degrees(0.0).degrees(), 0.0);
    EXPECT_EQ(Azimuth::degrees(360.0).degrees(), 0.0);
    EXPECT_EQ(Azimuth::degrees(725.0).degrees(), 5.0);
    EXPECT_EQ(Azimuth::degrees(-90.0).degrees(), 270.0);
    EXPECT_EQ(Azimuth::degrees(-720.0).degrees(), 0.0);
    EXPECT_NEAR(Azimuth::radians(-std::numbers::pi).degrees(), 180.0, 1e-12);
}

TEST(Azimuth, StaysBelowAFullTurnForTheSmallestStepWestOfNorth) {
    // -1e-17 + 360 rounds to 360 itself, which is north again.
    EXPECT_EQ(Azimuth::degrees(-1e-17).degrees(), 0.0);
    EXPECT_LT(Azimuth::degrees(-1e-13).degrees(), 360.0);
    EXPECT_EQ(Azimuth::degrees(-std::numeric_limits<double>::denorm_min()), Azimuth::degrees(0.0));
}

TEST(Azimuth, IsNeverMinusZero) {
    EXPECT_FALSE(std::signbit(Azimuth::degrees(-360.0).degrees()));
    EXPECT_FALSE(std::signbit(Azimuth::degrees(-0.0).degrees()));
}

TEST(Azimuth, RefusesWhatIsNoNumber) {
    EXPECT_THROW(Azimuth::degrees(std::numeric_limits<double>::quiet_NaN()), InternalError);
    EXPECT_THROW(Azimuth::degrees(-std::numeric_limits<double>::infinity()), InternalError);
}

TEST(Azimuth, ForgetsWholeTurns) {
    for (int turns = -5; turns <= 5; ++turns) {
        for (int quarter = 0; quarter < 4 * 360; ++quarter) {
            const double degrees = quarter * 0.25;
            EXPECT_EQ(Azimuth::degrees(degrees + 360.0 * turns).degrees(), degrees) << turns << " turns";
        }
    }
}

TEST(Turn, TakesTheShortWayRoundNorth) {
    EXPECT_DOUBLE_EQ(turn(Azimuth::degrees(350.0), Azimuth::degrees(10.0)).degrees(), 20.0);
    EXPECT_DOUBLE_EQ(turn(Azimuth::degrees(10.0), Azimuth::degrees(350.0)).degrees(), -20.0);
    EXPECT_DOUBLE_EQ(turn(Azimuth::degrees(123.0), Azimuth::degrees(123.0)).degrees(), 0.0);
}

TEST(Turn, CallsHalfATurnPlusEitherWay) {
    EXPECT_DOUBLE_EQ(turn(Azimuth::degrees(0.0), Azimuth::degrees(180.0)).degrees(), 180.0);
    EXPECT_DOUBLE_EQ(turn(Azimuth::degrees(180.0), Azimuth::degrees(0.0)).degrees(), 180.0);
}

TEST(Turn, LeadsFromTheOneToTheOther) {
    for (int from = 0; from < 360; from += 7) {
        for (int to = 0; to < 360; to += 5) {
            const Angle way = turn(Azimuth::degrees(from), Azimuth::degrees(to));
            EXPECT_GT(way.degrees(), -180.0);
            EXPECT_LE(way.degrees(), 180.0);
            const double apart = Azimuth::degrees(from + way.degrees()).degrees() - to;
            EXPECT_NEAR(std::remainder(apart, 360.0), 0.0, 1e-12) << from << " to " << to;
        }
    }
}

}  // namespace
}  // namespace gloam
