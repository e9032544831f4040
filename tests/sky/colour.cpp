#include "sky/colour.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace gloam::sky {
namespace {

constexpr Xyz kWhite{0.95047, 1.0, 1.08883};

TEST(Lab, WhiteHasNoColour) {
    const Lab lab = lab_of(kWhite);
    EXPECT_DOUBLE_EQ(lab.lightness, 100.0);
    EXPECT_DOUBLE_EQ(lab.a, 0.0);
    EXPECT_DOUBLE_EQ(lab.b, 0.0);
}

TEST(Lab, BlackHasNoColour) {
    const Lab lab = lab_of({});
    EXPECT_NEAR(lab.lightness, 0.0, 1e-12);
    EXPECT_NEAR(lab.a, 0.0, 1e-12);
    EXPECT_NEAR(lab.b, 0.0, 1e-12);
}

TEST(Lab, CurveHasNoStepWhereItsTwoPartsMeet) {
    constexpr double kEdge = 216.0 / 24389.0;
    const double below = lab_of(kWhite * (kEdge * (1.0 - 1e-9))).lightness;
    const double above = lab_of(kWhite * (kEdge * (1.0 + 1e-9))).lightness;
    EXPECT_NEAR(below, above, 1e-6);
    EXPECT_NEAR(below, 8.0, 1e-6);
}

TEST(Lab, MiddleGreyIsHalfAsLightAsWhite) {
    EXPECT_NEAR(lab_of(kWhite * 0.18418651851).lightness, 50.0, 1e-6);
}

TEST(Srgb, WhiteIsFullInEveryChannel) {
    for (const double channel : linear_rgb(kWhite)) {
        EXPECT_NEAR(channel, 1.0, 1e-3);
    }
}

// The published matrices have four decimals; there and back they leave some 1e-4.
TEST(Srgb, ThereAndBackIsTheSameColour) {
    for (const Xyz& colour : {Xyz{0.4, 0.3, 0.1}, Xyz{0.1, 0.2, 0.9}, Xyz{0.95, 1.0, 1.09}}) {
        const Xyz back = xyz_of(linear_rgb(colour));
        EXPECT_NEAR(back.x, colour.x, 2e-4);
        EXPECT_NEAR(back.y, colour.y, 2e-4);
        EXPECT_NEAR(back.z, colour.z, 2e-4);
    }
}

TEST(Srgb, PureRedLiesAtItsStandardChromaticity) {
    const Chromaticity red = chromaticity(xyz_of({1.0, 0.0, 0.0}));
    EXPECT_NEAR(red.x, 0.64, 1e-4);
    EXPECT_NEAR(red.y, 0.33, 1e-4);
}

TEST(Chromaticity, DoesNotDependOnBrightness) {
    const Chromaticity dim = chromaticity(kWhite * 1e-6);
    EXPECT_NEAR(dim.x, 0.3127, 1e-4);
    EXPECT_NEAR(dim.y, 0.3290, 1e-4);
}

}  // namespace
}  // namespace gloam::sky
