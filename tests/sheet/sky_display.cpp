#include "sheet/sky_display.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace gloam::sheet {
namespace {

/// D65 of luminance 1, CIE 15:2004.
constexpr sky::Xyz kDaylight{0.95047, 1.0, 1.08883};
/// A chromaticity between orange and red, outside sRGB: x .66, y .34.
constexpr sky::Xyz kDeepOrange{0.66 / 0.34, 1.0, 0.0};

double metered_cd_m2() {
    return luminance_of_ev(10.0);
}

// Exposure value 10 at ISO 100 and K = 12.5: 128 cd m-2 (ISO 2720:1974).
TEST(SkyDisplay, TakesExposureValuesByTheMetersConstant) {
    EXPECT_NEAR(luminance_of_ev(10.0), 128.0, 1e-9);
    EXPECT_NEAR(ev_of_luminance(4.0), 5.0, 1e-12);
}

// A fifth of white in the sRGB curve: 1.055 0.2^(1/2.4) - 0.055.
TEST(SkyDisplay, ShowsWhatTheMeterReadAFifthOfWhite) {
    for (const double channel : displayed(kDaylight * metered_cd_m2(), 10.0)) {
        EXPECT_NEAR(channel, 0.4845, 1e-3);
    }
}

TEST(SkyDisplay, ShowsOneStopLessAtHalfTheLight) {
    const double shown = displayed(kDaylight * metered_cd_m2(), 11.0)[1];
    EXPECT_NEAR(shown, displayed(kDaylight * (0.5 * metered_cd_m2()), 10.0)[1], 1e-12);
}

TEST(SkyDisplay, KeepsEveryColourWithinTheScreen) {
    for (const double stops : {-10.0, 0.0, 2.0, 5.0, 20.0}) {
        for (const double channel : displayed(kDeepOrange * (metered_cd_m2() * std::exp2(stops)), 10.0)) {
            EXPECT_GE(channel, 0.0) << stops;
            EXPECT_LE(channel, 1.0) << stops;
        }
    }
}

/// Relative luminance of an encoded colour. Source: IEC 61966-2-1:1999.
double luminance_of(const DisplayColour& colour) {
    sky::LinearRgb rgb{};
    for (std::size_t i = 0; i < rgb.size(); ++i) {
        rgb[i] = colour[i] <= 0.04045 ? colour[i] / 12.92 : std::pow((colour[i] + 0.055) / 1.055, 2.4);
    }
    return sky::xyz_of(rgb).y;
}

TEST(SkyDisplay, KeepsTheLuminanceOfColoursThatNoScreenShows) {
    EXPECT_NEAR(luminance_of(displayed(kDeepOrange * metered_cd_m2(), 11.0)), 0.1, 1e-3);
}

TEST(SkyDisplay, GrowsWithTheLightAndEndsAtWhite) {
    DisplayColour before{};
    for (double stops = -6.0; stops < 24.0; stops += 0.5) {
        const DisplayColour here = displayed(kDeepOrange * (metered_cd_m2() * std::exp2(stops)), 10.0);
        EXPECT_GE(luminance_of(here), luminance_of(before)) << stops;
        before = here;
    }
    for (const double channel : before) {
        EXPECT_GT(channel, 0.999);
    }
}

TEST(SkyDisplay, ShowsNoLightBlack) {
    EXPECT_EQ(displayed({}, 10.0), (DisplayColour{0.0, 0.0, 0.0}));
}

}  // namespace
}  // namespace gloam::sheet
