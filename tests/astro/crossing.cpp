#include "astro/crossing.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

#include "astro/track.hpp"

namespace gloam::astro {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

Instant at(std::string_view text) {
    return parse_rfc3339(text).value();
}

CivilDate date(std::string_view text) {
    return parse_civil_date(text).value();
}

geo::InstantSpan day_in(std::string_view zone, std::string_view day) {
    return geo::Zone::named(zone).value().span_of(date(day)).value();
}

Observer sea_level(double lat_deg, double lon_deg) {
    return {geo::make_lat_lon(lat_deg, lon_deg).value(), HeightMsl{0.0}};
}

TrueAltitude altitude(double deg) {
    return {Angle::degrees(deg)};
}

const Observer kTromso = sea_level(69.6492, 18.9553);

TEST(Crossing, SunNeverSetsInTromsoAtMidsummerNorRisesAtMidwinter) {
    EXPECT_TRUE(crossings(Body::kSun, kTromso, day_in("Europe/Oslo", "2026-06-21"), standard_rise_altitude())
                    .empty());
    EXPECT_TRUE(crossings(Body::kSun, kTromso, day_in("Europe/Oslo", "2026-12-21"), standard_rise_altitude())
                    .empty());
}

struct WhiteNight {
    const char* name;
    double lat_deg;
    double lon_deg;
    const char* zone;
    const char* day;
    const char* set;
    const char* rise;
};

class SetBeforeRise : public ::testing::TestWithParam<WhiteNight> {};

TEST_P(SetBeforeRise, InOneLocalDay) {
    const WhiteNight& night = GetParam();
    const auto zone = geo::Zone::named(night.zone).value();
    auto found = crossings(Body::kSun, sea_level(night.lat_deg, night.lon_deg), day_in(night.zone, night.day),
                           standard_rise_altitude());
    ASSERT_GE(found.size(), 2U);
    EXPECT_FALSE(found[0].rising);
    EXPECT_EQ(zone.clock(found[0].instant), night.set);
    EXPECT_TRUE(found[1].rising);
    EXPECT_EQ(zone.clock(found[1].instant), night.rise);
}

INSTANTIATE_TEST_SUITE_P(, SetBeforeRise,
                         ::testing::Values(WhiteNight{"Tromso", 69.6492, 18.9553, "Europe/Oslo", "2026-05-18",
                                                      "00:28", "00:52"},
                                           WhiteNight{"Fairbanks", 64.8378, -147.7164, "America/Anchorage",
                                                      "2026-06-21", "00:48", "02:58"},
                                           WhiteNight{"Rovaniemi", 66.5039, 25.7294, "Europe/Helsinki",
                                                      "2026-07-07", "01:06", "01:39"}),
                         [](const auto& night) { return night.param.name; });

TEST(Crossing, AGrazingPairSecondsApartIsFound) {
    // The lowest point of a white night, then altitudes just above it: the passages close in on it.
    const geo::InstantSpan span{at("2026-06-20T12:00:00Z"), at("2026-06-21T12:00:00Z")};
    const Observer reykjavik = sea_level(64.1466, -21.9426);
    const auto zone = geo::Zone::named("Atlantic/Reykjavik").value();
    const HalfDay dawn = half_day_of(reykjavik, zone, date("2026-06-21"), EventKind::kDawn).value();
    const auto stays = std::get<NeverBelow>(sun_crossing(reykjavik, dawn, altitude(-10.0)));
    for (const double above_arcsec : {1000.0, 10.0, 0.1, 0.001}) {
        const TrueAltitude asked{stays.lowest.angle + Angle::arcminutes(above_arcsec / 60.0)};
        const auto pair = crossings(Body::kSun, reykjavik, span, asked);
        ASSERT_EQ(pair.size(), 2U) << above_arcsec;
        EXPECT_LT(pair[0].instant, stays.when);
        EXPECT_GT(pair[1].instant, stays.when);
    }
    const TrueAltitude below{stays.lowest.angle - Angle::arcminutes(0.001 / 60.0)};
    EXPECT_TRUE(crossings(Body::kSun, reykjavik, span, below).empty());
}

TEST(Crossing, TheInstantIsTheFirstMillisecondOnTheNewSide) {
    const geo::InstantSpan span{at("2026-09-01T00:00:00Z"), at("2026-09-05T00:00:00Z")};
    const Track track(Body::kSun, span);
    for (const Crossing& crossing : crossings(Body::kSun, kTromso, span, altitude(-6.0))) {
        const auto above = [&](Instant instant) {
            return track.seen_from(Station(kTromso), instant).altitude >= altitude(-6.0);
        };
        EXPECT_EQ(above(crossing.instant), crossing.rising);
        EXPECT_NE(above(crossing.instant - Duration(1)), crossing.rising);
    }
}

TEST(Crossing, BelongsToTheSpanThatBeginsWithItNotToTheOneThatEndsThere) {
    const geo::InstantSpan day = day_in("Europe/Oslo", "2026-09-01");
    for (const Crossing& crossing : crossings(Body::kSun, kTromso, day, altitude(0.0))) {
        const Instant instant = crossing.instant;
        EXPECT_EQ(crossings(Body::kSun, kTromso, {instant, instant + Duration(1)}, altitude(0.0)).size(), 1U);
        EXPECT_TRUE(crossings(Body::kSun, kTromso, {instant - Duration(1), instant}, altitude(0.0)).empty());
    }
}

class LongSearch : public ::testing::TestWithParam<Body> {};

TEST_P(LongSearch, FindsForwardsWhatItFindsBackwardsDayByDay) {
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> lat(-89.95, 89.95);
    std::uniform_real_distribution<double> lon(-180.0, 180.0);
    std::uniform_real_distribution<double> asked(-18.0, 5.0);
    const Instant begin = at("2026-02-01T00:00:00Z");
    for (int i = 0; i < 40; ++i) {
        const Observer observer = sea_level(lat(random), lon(random));
        const TrueAltitude level = altitude(asked(random));
        const auto forwards = crossings(GetParam(), observer, {begin, begin + days(30)}, level);
        std::vector<Crossing> backwards;
        for (int day = 29; day >= 0; --day) {
            // Spans of odd lengths, laid end to end from the last to the first.
            const auto part =
                crossings(GetParam(), observer, {begin + days(day), begin + days(day + 1)}, level);
            backwards.insert(backwards.begin(), part.begin(), part.end());
        }
        ASSERT_EQ(forwards.size(), backwards.size()) << geo::to_text(observer.at);
        for (std::size_t k = 0; k < forwards.size(); ++k) {
            ASSERT_EQ(forwards[k].instant, backwards[k].instant);
            ASSERT_EQ(forwards[k].rising, backwards[k].rising);
            ASSERT_TRUE(k == 0 || forwards[k].rising != forwards[k - 1].rising)
                << "rise and set must alternate";
        }
    }
}

TEST_P(LongSearch, MissesNothingThatAFineScanSees) {
    std::mt19937_64 random(12);
    std::uniform_real_distribution<double> lat(55.0, 89.95);
    std::uniform_real_distribution<double> lon(-180.0, 180.0);
    const Instant begin = at("2026-05-10T00:00:00Z");
    for (int i = 0; i < 6; ++i) {
        const Observer observer = sea_level(lat(random), lon(random));
        const geo::InstantSpan span{begin, begin + days(2)};
        std::size_t seen = 0;
        bool was_above = position_of(GetParam(), observer, begin).altitude >= standard_rise_altitude();
        for (Instant t = begin; t < span.end; t += std::chrono::seconds(60)) {
            const bool is_above = position_of(GetParam(), observer, t).altitude >= standard_rise_altitude();
            seen += is_above != was_above ? 1U : 0U;
            was_above = is_above;
        }
        EXPECT_GE(crossings(GetParam(), observer, span, standard_rise_altitude()).size(), seen);
    }
}

INSTANTIATE_TEST_SUITE_P(, LongSearch, ::testing::Values(Body::kSun, Body::kMoon),
                         [](const auto& body) { return body.param == Body::kSun ? "Sun" : "Moon"; });

TEST(Crossing, ASpanWithoutLengthHoldsNothing) {
    const Instant now = at("2026-05-10T00:00:00Z");
    EXPECT_TRUE(crossings(Body::kSun, kTromso, {now, now}, altitude(0.0)).empty());
    EXPECT_TRUE(crossings(Body::kSun, kTromso, {now, now - days(1)}, altitude(0.0)).empty());
}

TEST(Crossing, SpeedAlongTheHorizonIsAsTheIdentitySays) {
    // d(alt)/dt = 15.04 deg/h cos(lat) sin(az), check within 0.5 %.
    const Observer here = sea_level(46.41, 11.84);
    const auto rise = crossings(Body::kSun, here, day_in("Europe/Rome", "2026-10-20"), altitude(0.0)).front();
    const auto later = position_of(Body::kSun, here, rise.instant + std::chrono::minutes(1));
    const double rate_deg_h = later.altitude.angle.degrees() * 60.0;
    const double expected =
        15.04 * std::cos(Angle::degrees(46.41).radians()) * std::sin(rise.azimuth.radians());
    EXPECT_NEAR(rate_deg_h, expected, 0.005 * expected);
}

TEST(Crossing, TheSouthPoleHasOneSunsetIn2026) {
    const auto found =
        crossings(Body::kSun, sea_level(-90.0, 0.0), {at("2026-01-01T00:00:00Z"), at("2026-07-01T00:00:00Z")},
                  standard_rise_altitude());
    ASSERT_EQ(found.size(), 1U);
    EXPECT_FALSE(found[0].rising);
    EXPECT_LT(std::abs(hours_between(at("2026-03-22T17:14:00Z"), found[0].instant)), 0.5);
}

TEST(Crossing, MoonsetByTheUpperLimbComesAfterThatOfTheCentre) {
    const auto span = day_in("Europe/Rome", "2026-10-20");
    const Observer here = sea_level(46.41, 11.84);
    const auto centre = crossings(Body::kMoon, here, span, altitude(-34.0 / 60.0));
    const auto limb = upper_limb_crossings(Body::kMoon, here, span, altitude(-34.0 / 60.0));
    ASSERT_EQ(centre.size(), limb.size());
    for (std::size_t i = 0; i < limb.size(); ++i) {
        EXPECT_EQ(limb[i].instant < centre[i].instant, limb[i].rising);
    }
}

}  // namespace
}  // namespace gloam::astro
