#include "astro/ephemeris.hpp"

#include <gtest/gtest.h>

#include "astro/time_scales.hpp"

namespace gloam::astro {
namespace {

Instant at(std::string_view text) {
    return parse_rfc3339(text).value();
}

TEST(Ephemeris, TheSunStandsStillAtTheSolsticeUnderTheTropic) {
    // June solstice 2026-06-21T08:24Z (USNO). The pole sees the true obliquity of date, 23.43585 deg and 8.2"
    // of nutation, less the diurnal parallax, 8.65" cos 23.4 deg at aphelion.
    const BodyPosition sun =
        position_of(Body::kSun, {{90.0, 0.0}, HeightMsl{0.0}}, at("2026-06-21T08:24:00Z"));
    EXPECT_NEAR(sun.altitude.angle.degrees(), 23.43585 + (8.2 - 8.65 * 0.9175) / 3600.0, 0.0003);
}

TEST(Ephemeris, TheTotalEclipseOf2017CoversTheSunAtCarbondale) {
    // Carbondale, Illinois: mid-totality 2017-08-21T18:21:30Z, magnitude 1.03 (NASA eclipse bulletin).
    const Observer carbondale{{37.7089, -89.2217}, HeightMsl{130.0}};
    const BodyPosition sun = position_of(Body::kSun, carbondale, at("2017-08-21T18:21:30Z"));
    const BodyPosition moon = position_of(Body::kMoon, carbondale, at("2017-08-21T18:21:30Z"));
    const double up = (sun.altitude.angle - moon.altitude.angle).degrees();
    const double aside = turn(sun.azimuth, moon.azimuth).degrees() * std::cos(sun.altitude.angle.radians());
    const double apart_deg = std::hypot(up, aside);
    EXPECT_LT(apart_deg, moon.semidiameter.degrees() - sun.semidiameter.degrees());
}

TEST(Ephemeris, TheMoonsParallaxIsADegreeAtTheHorizon) {
    // Two observers on opposite sides of the Earth's disc see the moon lower by nearly the parallax each.
    const Instant when = at("2026-06-21T12:00:00Z");
    const BodyPosition here = position_of(Body::kMoon, {{0.0, 0.0}, HeightMsl{0.0}}, when);
    const BodyPosition there = position_of(Body::kMoon, {{0.0, -180.0}, HeightMsl{0.0}}, when);
    const double sum_deg = (here.altitude.angle + there.altitude.angle).degrees();
    const double low_deg = 2.0 * 0.95 * std::cos(here.altitude.angle.radians());
    EXPECT_NEAR(sum_deg, -low_deg, 0.15);
}

TEST(Ephemeris, WorksAtThePolesAndOnTheDateLine) {
    for (const double lat : {-90.0, -89.95, 0.0, 89.95, 90.0}) {
        for (const double lon : {-180.0, -179.9, 0.0, 179.9}) {
            for (const Body body : {Body::kSun, Body::kMoon}) {
                const auto position =
                    position_of(body, {{lat, lon}, HeightMsl{0.0}}, at("2026-03-20T12:00:00Z"));
                EXPECT_TRUE(std::isfinite(position.altitude.angle.radians()));
                EXPECT_GE(position.azimuth.degrees(), 0.0);
                EXPECT_LT(position.azimuth.degrees(), 360.0);
            }
        }
    }
}

TEST(Ephemeris, GoesOnSmoothlyBeyondTheLeapSecondTable) {
    for (const char* year : {"1890-01-01T00:00:00Z", "1959-06-01T00:00:00Z", "2035-01-01T00:00:00Z",
                             "2095-01-01T00:00:00Z", "2150-01-01T00:00:00Z"}) {
        const auto sun = position_of(Body::kSun, {{10.0, 20.0}, HeightMsl{0.0}}, at(year));
        EXPECT_NEAR(sun.distance_m, 1.471e11, 0.05e11) << year;
    }
}

TEST(TimeScales, TerrestrialTimeIsAheadByTheLeapSecondsAnd32184Milliseconds) {
    const auto ahead_s = [](std::string_view text) {
        const JulianDate tt = terrestrial_time(at(text));
        const JulianDate ut = universal_time(at(text));
        return (tt.midnight - ut.midnight + tt.day_part - ut.day_part) * 86400.0;
    };
    EXPECT_NEAR(ahead_s("2016-12-31T23:59:59Z"), 36.0 + 32.184, 1e-6);
    EXPECT_NEAR(ahead_s("2017-01-01T00:00:00Z"), 37.0 + 32.184, 1e-6);
    EXPECT_NEAR(ahead_s("2060-01-01T00:00:00Z"), 37.0 + 32.184, 1e-6);
    EXPECT_NEAR(ahead_s("1950-01-01T00:00:00Z"), 32.184, 1e-6);
}

TEST(TimeScales, TheJulianDateOfTheEpochJ2000IsAsDefined) {
    const JulianDate noon = universal_time(at("2000-01-01T12:00:00Z"));
    EXPECT_DOUBLE_EQ(noon.midnight + noon.day_part, 2451545.0);
    const JulianDate old = universal_time(at("1969-12-31T18:00:00Z"));
    EXPECT_DOUBLE_EQ(old.midnight, 2440586.5);
    EXPECT_DOUBLE_EQ(old.day_part, 0.75);
}

}  // namespace
}  // namespace gloam::astro
