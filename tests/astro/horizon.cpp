#include "astro/horizon.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "air/ray.hpp"
#include "astro/dip.hpp"
#include "base/check.hpp"

namespace gloam::astro {
namespace {

double centre_deg(double eye_m, double above_m) {
    return sun_centre_at_horizon({eye_m}, {above_m}).value().angle.degrees();
}

TEST(LevelHorizon, LiesWithinFivePercentOfTheNavigatorsDip) {
    for (const double height_m : {1.6, 10.0, 100.0, 1000.0, 3000.0}) {
        const double dip_deg = -level_horizon({height_m}, {height_m}).angle.degrees();
        EXPECT_NEAR(dip_deg, dip({height_m}, kOverSea).degrees(), 0.05 * dip_deg) << height_m;
    }
}

TEST(LevelHorizon, OverTheSeaIsTheLowestRayThatClearsTheGround) {
    for (const double height_m : {2.0, 50.0, 900.0, 4000.0}) {
        EXPECT_NEAR(-level_horizon({height_m}, {height_m}).angle.degrees(),
                    air::grazing_zenith(height_m).degrees() - 90.0, 1e-9);
    }
}

TEST(LevelHorizon, OfAHighPlainBendsLessThanTheSeas) {
    const auto over_sea = level_horizon({300.0}, {300.0});
    const auto over_plateau = level_horizon({3300.0}, {300.0});
    EXPECT_LT(over_plateau, over_sea) << "thinner air bends less, so the horizon dips more";
    EXPECT_GT(over_plateau.angle, -dip({300.0}, kNoAir));
}

TEST(LevelHorizon, AtItsOwnHeightHasNoDip) {
    EXPECT_EQ(level_horizon({0.0}, {0.0}).angle.radians(), 0.0);
    EXPECT_EQ(level_horizon({1500.0}, {0.0}).angle.radians(), 0.0);
    EXPECT_THROW(level_horizon({10.0}, {-1.0}), InternalError);
}

TEST(SunAtHorizon, AtSeaLevelStandsWithinTwoMinutesOfConvention) {
    // 32.9' of traced refraction and 16' of semidiameter, where convention has 34' + 16'.
    EXPECT_NEAR(centre_deg(0.0, 0.0), -48.9 / 60.0, 0.005);
    EXPECT_NEAR(centre_deg(0.0, 0.0), -50.0 / 60.0, 2.0 / 60.0);
}

TEST(SunAtHorizon, FromACloudsHeightIsWhereThatCloudLosesTheSun) {
    // check: data of the ray that grazes the sea (sun's centre when its upper limb goes, 1 to 12 km).
    const struct {
        double height_km;
        double depression_deg;
    } table[] = {{1, 1.930}, {2, 2.389}, {4, 3.034}, {8, 3.939}, {12, 4.624}};
    for (const auto& line : table) {
        EXPECT_NEAR(centre_deg(line.height_km * 1e3, line.height_km * 1e3), -line.depression_deg, 0.02)
            << line.height_km;
    }
}

TEST(SunAtHorizon, FallsSmoothlyWithTheHeightOfTheEye) {
    double last_deg = centre_deg(0.0, 0.0);
    for (int step = 0; step < 900; ++step) {
        const double height_m = std::pow(1.01, step);
        const double here_deg = centre_deg(height_m, height_m);
        ASSERT_LT(here_deg, last_deg + 0.001) << height_m;
        ASSERT_GT(here_deg, last_deg - 0.05) << height_m;
        last_deg = here_deg;
    }
}

TEST(SunAtHorizon, ASkylineRaisesIt) {
    const ApparentAltitude ridge{Angle::degrees(5.0)};
    const double centre = sun_centre_at_horizon({1500.0}, {0.0}, ridge).value().angle.degrees();
    // 9.66' of refraction at sea level, a sixth less at 1500 m; 16' of semidiameter.
    EXPECT_NEAR(centre, 5.0 - 9.66 / 60.0 * 0.85 - 16.0 / 60.0, 0.01);
}

TEST(SunAtHorizon, BelowSeaLevelTheAirIsThatOfSeaLevel) {
    EXPECT_EQ(centre_deg(-430.0, 0.0), centre_deg(0.0, 0.0));
    EXPECT_EQ(centre_deg(-400.0, 30.0), centre_deg(30.0, 30.0));
}

TEST(SunAtHorizon, RefusesWhatCannotBe) {
    EXPECT_EQ(sun_centre_at_horizon({0.0}, {-2.0}).error().kind, ErrorKind::kBadInput);
    EXPECT_EQ(sun_centre_at_horizon({0.0}, {std::nan("")}).error().kind, ErrorKind::kBadInput);
    const ApparentAltitude too_low{Angle::degrees(-3.0)};
    EXPECT_EQ(sun_centre_at_horizon({100.0}, {100.0}, too_low).error().kind, ErrorKind::kOutOfDomain);
}

}  // namespace
}  // namespace gloam::astro
