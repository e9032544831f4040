#include "outlook/member_course.hpp"

#include <gtest/gtest.h>

#include <initializer_list>

#include "base/check.hpp"

namespace gloam::outlook {
namespace {

/// A dawn with the sun a degree higher every four minutes.
struct Course {
    std::vector<Moment> moments;
    MemberCourse course;
};

Course course_of(double first_deg, std::initializer_list<double> values, double step_deg = 1.0) {
    std::vector<Moment> moments;
    std::vector<sky::ColourStrength> strengths;
    double elevation_deg = first_deg;
    for (const double value : values) {
        const auto minutes = hours((elevation_deg - first_deg) * 4.0 / 60.0);
        moments.push_back({Instant(minutes), Azimuth::degrees(90), {Angle::degrees(elevation_deg), 1.0}});
        strengths.emplace_back().value = value;
        elevation_deg += step_deg;
    }
    MemberCourse course = read_course(moments, std::move(strengths));
    return {std::move(moments), std::move(course)};
}

TEST(MemberCourse, PeaksAtItsStrongestMomentBelowTheHorizon) {
    const auto [moments, course] = course_of(-5.0, {10, 20, 40, 30, 15, 90});  // -5 to 0
    EXPECT_EQ(course.after.strength, 40.0);
    EXPECT_EQ(course.after.moment, 2U);
    EXPECT_FALSE(course.after.at_edge);
}

TEST(MemberCourse, MarksAPeakAtTheEndOfItsPhase) {
    EXPECT_TRUE(course_of(-5.0, {50, 20, 10, 10, 10}).course.after.at_edge);
    EXPECT_TRUE(course_of(-5.0, {10, 20, 30, 40, 50}).course.after.at_edge);
    EXPECT_TRUE(course_of(-8.0, {90, 90, 30, 20, 10, 10, 10, 10}).course.after.at_edge);  // at -6
}

TEST(MemberCourse, HasGoldApartWithTheSunAboutTheHorizon) {
    const auto [moments, course] = course_of(-2.0, {10, 20, 30, 60, 50, 40, 95});  // -2 to +4
    ASSERT_TRUE(course.gold);
    EXPECT_EQ(course.gold->strength, 60.0);
    EXPECT_EQ(course.gold->moment, 3U);
    EXPECT_FALSE(course.gold->at_edge);
}

TEST(MemberCourse, HasNoGoldWhereTheSunDoesNotComeUp) {
    EXPECT_FALSE(course_of(-5.0, {10, 20, 30, 20}).course.gold);
}

TEST(MemberCourse, BelongsToThePhaseAtBothLimits) {
    EXPECT_TRUE(is_after(Angle::degrees(-6.0)));
    EXPECT_TRUE(is_after(Angle::degrees(-0.5)));
    EXPECT_FALSE(is_after(Angle::degrees(-6.25)));
    EXPECT_FALSE(is_after(Angle::degrees(-0.25)));
    EXPECT_FALSE(is_gold(Angle::degrees(-0.5)));
    EXPECT_TRUE(is_gold(Angle::degrees(-0.25)));
    EXPECT_TRUE(is_gold(Angle::degrees(3.0)));
    EXPECT_FALSE(is_gold(Angle::degrees(3.5)));
}

TEST(MemberCourse, IsBestWhileThreeQuartersOfThePeakLast) {
    const auto [moments, course] = course_of(-6.0, {35, 20, 31, 40, 30, 29});
    EXPECT_EQ(course.best.first, 2U);
    EXPECT_EQ(course.best.last, 4U);
}

TEST(MemberCourse, IsBestOnlyWithinItsPhase) {
    const auto [moments, course] = course_of(-7.0, {40, 40, 40, 40, 40, 40, 40, 40, 40});  // -7 to +1
    EXPECT_EQ(course.best.first, 1U);                                                      // -6
    EXPECT_EQ(course.best.last, 6U);                                                       // -1
}

TEST(MemberCourse, OfOneLengthWithItsMomentsIsAPromise) {
    const auto [moments, course] = course_of(-3.0, {1, 2, 3});
    EXPECT_THROW(read_course(moments, {}), InternalError);
}

TEST(MinutesAbove, AreAllOfThemWhereTheCourseStaysAbove) {
    const auto [moments, course] = course_of(-5.0, {40, 50, 40, 50, 40});
    EXPECT_DOUBLE_EQ(minutes_above(moments, course, 36.0), 16.0);
}

TEST(MinutesAbove, AreNoneWhereItStaysBelow) {
    const auto [moments, course] = course_of(-5.0, {10, 35, 10});
    EXPECT_DOUBLE_EQ(minutes_above(moments, course, 36.0), 0.0);
}

TEST(MinutesAbove, AreInterpolatedBetweenMoments) {
    const auto [moments, course] = course_of(-4.0, {26, 46, 6});  // up through 36 half-way, down at a quarter
    EXPECT_NEAR(minutes_above(moments, course, 36.0), 0.5 * 4.0 + 0.25 * 4.0, 1e-9);
}

TEST(MinutesAbove, CountOnlyTheSunBelowTheHorizon) {
    const auto [moments, course] = course_of(-2.0, {50, 50, 50, 50});  // -2, -1 count; 0, 1 do not
    EXPECT_DOUBLE_EQ(minutes_above(moments, course, 36.0), 4.0);
}

TEST(MinutesAbove, OfACourseThatOnlyTouchesTheLimitAreNone) {
    const auto [moments, course] = course_of(-4.0, {20, 36, 20});
    EXPECT_DOUBLE_EQ(minutes_above(moments, course, 36.0), 0.0);
}

}  // namespace
}  // namespace gloam::outlook
