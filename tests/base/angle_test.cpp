#include "base/angle.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace gloam {
namespace {

static_assert(Angle().radians() == 0.0);
static_assert(Angle::degrees(1.0) < Angle::degrees(2.0));

TEST(Angle, ReadsInEveryUnitWhatAnotherUnitMade) {
    EXPECT_DOUBLE_EQ(Angle::degrees(180.0).radians(), std::numbers::pi);
    EXPECT_DOUBLE_EQ(Angle::radians(std::numbers::pi / 2.0).degrees(), 90.0);
    EXPECT_DOUBLE_EQ(Angle::arcminutes(34.0).degrees(), 34.0 / 60.0);
    EXPECT_DOUBLE_EQ(Angle::degrees(-0.5).arcminutes(), -30.0);
}

TEST(Angle, AddsAndScalesWithoutWrapping) {
    EXPECT_DOUBLE_EQ((Angle::degrees(350.0) + Angle::degrees(20.0)).degrees(), 370.0);
    EXPECT_DOUBLE_EQ((Angle::degrees(10.0) - Angle::degrees(25.0)).degrees(), -15.0);
    EXPECT_DOUBLE_EQ((-Angle::degrees(7.0) * 3.0).degrees(), -21.0);
}

}  // namespace
}  // namespace gloam
