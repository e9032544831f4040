#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "astro/crossing.hpp"

namespace gloam::astro {
namespace {

using std::chrono::days;
using std::chrono::hours;
using std::chrono::sys_days;

CivilDate date(std::string_view text) {
    return parse_civil_date(text).value();
}

geo::Zone zone(std::string_view name) {
    return geo::Zone::named(name).value();
}

Observer sea_level(double lat_deg, double lon_deg) {
    return {geo::make_lat_lon(lat_deg, lon_deg).value(), HeightMsl{0.0}};
}

TrueAltitude altitude(double deg) {
    return {Angle::degrees(deg)};
}

HalfDay half_day(const Observer& observer, std::string_view zone_name, std::string_view day, EventKind kind) {
    return half_day_of(observer, zone(zone_name), date(day), kind).value();
}

AltitudeOutcome outcome(const Observer& observer, std::string_view zone_name, std::string_view day,
                        EventKind kind, TrueAltitude asked) {
    return sun_crossing(observer, half_day(observer, zone_name, day, kind), asked);
}

struct Corner {
    const char* name;
    double lat_deg;
    double lon_deg;
    const char* zone;
    const char* day;
};

/// Places where a search by UTC date, by nearest transit or by a clamped zone goes to another day.
constexpr Corner kCorners[] = {
    {"ApiaBeforeTheSkippedDay", -13.8333, -171.7667, "Pacific/Apia", "2011-12-29"},
    {"ApiaAfterTheSkippedDay", -13.8333, -171.7667, "Pacific/Apia", "2011-12-31"},
    {"ChathamOnTheNightOfTheClocks", -43.95, -176.56, "Pacific/Chatham", "2026-04-05"},
    {"ChathamAtMidsummer", -43.95, -176.56, "Pacific/Chatham", "2026-12-21"},
    {"Kiritimati", 1.8721, -157.4278, "Pacific/Kiritimati", "2026-03-20"},
    {"Adak", 51.88, -176.65, "America/Adak", "2026-06-21"},
    {"AttuInAZoneFarToTheEast", 52.9, 172.9, "America/Adak", "2026-06-21"},
    {"TaveuniJustWest", -16.85, 179.9, "Pacific/Fiji", "2026-10-01"},
    {"TaveuniJustEast", -16.85, -179.9, "Pacific/Fiji", "2026-10-01"},
    {"OnTheMeridianOf180", -16.85, 180.0, "Pacific/Fiji", "2026-10-01"},
    {"PagoPago", -14.2756, -170.702, "Pacific/Pago_Pago", "2026-01-01"},
    {"KashgarOnBeijingTime", 39.4677, 75.9938, "Asia/Shanghai", "2026-06-21"},
    {"LondonWhenClocksGoForward", 51.5074, -0.1278, "Europe/London", "2026-03-29"},
    {"LondonWhenClocksGoBack", 51.5074, -0.1278, "Europe/London", "2026-10-25"},
    {"SydneyWhenClocksGoForward", -33.87, 151.21, "Australia/Sydney", "2026-10-04"},
    {"SydneyWhenClocksGoBack", -33.87, 151.21, "Australia/Sydney", "2026-04-05"},
    {"LordHoweWhenClocksGoForward", -31.55, 159.08, "Australia/Lord_Howe", "2026-10-04"},
    {"LordHoweWhenClocksGoBack", -31.55, 159.08, "Australia/Lord_Howe", "2026-04-05"},
};

class HalfDayOf : public ::testing::TestWithParam<Corner> {
  protected:
    HalfDay half(EventKind kind) const {
        const Corner& corner = GetParam();
        return half_day(sea_level(corner.lat_deg, corner.lon_deg), corner.zone, corner.day, kind);
    }
    AltitudeOutcome sunrise_or_sunset(EventKind kind) const {
        return sun_crossing(sea_level(GetParam().lat_deg, GetParam().lon_deg), half(kind),
                            standard_rise_altitude());
    }
};

TEST_P(HalfDayOf, HasItsNoonInTheLocalDate) {
    const Instant noon = half(EventKind::kDawn).span.end;
    EXPECT_EQ(zone(GetParam().zone).date_of(noon), date(GetParam().day));
    EXPECT_EQ(noon, half(EventKind::kDusk).span.begin);
}

TEST_P(HalfDayOf, HasSunriseAndSunsetOfTheLocalDate) {
    const auto here = zone(GetParam().zone);
    const auto rise = std::get<Crossing>(sunrise_or_sunset(EventKind::kDawn));
    const auto set = std::get<Crossing>(sunrise_or_sunset(EventKind::kDusk));
    EXPECT_TRUE(rise.rising);
    EXPECT_FALSE(set.rising);
    EXPECT_EQ(here.date_of(rise.instant), date(GetParam().day));
    EXPECT_EQ(here.date_of(set.instant), date(GetParam().day));
    EXPECT_LT(rise.azimuth.degrees(), 180.0);
    EXPECT_GT(set.azimuth.degrees(), 180.0);
}

TEST_P(HalfDayOf, LastsTwelveHoursAndGoesFromLowestToHighest) {
    for (const EventKind kind : {EventKind::kDawn, EventKind::kDusk}) {
        const HalfDay one = half(kind);
        EXPECT_EQ(one.kind, kind);
        EXPECT_NEAR(hours_between(one.span.begin, one.span.end), 12.0, 0.01);
        const double lat = GetParam().lat_deg;
        const double sum_deg = one.highest.angle.degrees() + one.lowest.angle.degrees();
        EXPECT_LT(one.lowest, one.highest);
        EXPECT_LT(std::abs(sum_deg), 2.0 * 23.5) << lat;
    }
}

INSTANTIATE_TEST_SUITE_P(, HalfDayOf, ::testing::ValuesIn(kCorners),
                         [](const auto& corner) { return corner.param.name; });

TEST(HalfDay, TheDateThatApiaSkippedHasNone) {
    const auto skipped = half_day_of(sea_level(-13.8333, -171.7667), zone("Pacific/Apia"), date("2011-12-30"),
                                     EventKind::kDawn);
    ASSERT_FALSE(skipped);
    EXPECT_EQ(skipped.error().kind, ErrorKind::kNotFound);
}

TEST(HalfDay, ApiaLostADateButNoDawn) {
    const Observer apia = sea_level(-13.8333, -171.7667);
    EXPECT_EQ(half_day(apia, "Pacific/Apia", "2011-12-29", EventKind::kDusk).span.end,
              half_day(apia, "Pacific/Apia", "2011-12-31", EventKind::kDawn).span.begin);
}

TEST(HalfDay, HalfDaysOfAYearMeetWithoutGapOrOverlap) {
    const struct {
        double lat_deg;
        double lon_deg;
        const char* zone;
    } places[] = {{51.5, -0.1, "Europe/London"},   {-31.55, 159.08, "Australia/Lord_Howe"},
                  {69.65, 18.96, "Europe/Oslo"},   {52.9, 172.9, "America/Adak"},
                  {89.95, 100.0, "UTC"},           {-90.0, 166.7, "Antarctica/McMurdo"},
                  {0.0, 0.0, "Pacific/Kiritimati"}};
    for (const auto& place : places) {
        const Observer observer = sea_level(place.lat_deg, place.lon_deg);
        Instant end = half_day(observer, place.zone, "2026-01-01", EventKind::kDawn).span.begin;
        for (sys_days day = date("2026-01-01"); day < sys_days(date("2027-01-01")); day += days(1)) {
            const std::string text = to_text(CivilDate(day));
            const HalfDay dawn = half_day(observer, place.zone, text, EventKind::kDawn);
            const HalfDay dusk = half_day(observer, place.zone, text, EventKind::kDusk);
            ASSERT_EQ(dawn.span.begin, end) << place.zone << " " << text;
            ASSERT_EQ(dawn.span.end, dusk.span.begin) << place.zone << " " << text;
            end = dusk.span.end;
        }
    }
}

TEST(HalfDay, NoonIsWhenTheSunStandsOnTheMeridian) {
    const HalfDay south = half_day(sea_level(46.41, 11.84), "Europe/Rome", "2026-10-20", EventKind::kDawn);
    const auto noon = position_of(Body::kSun, sea_level(46.41, 11.84), south.span.end);
    EXPECT_NEAR(noon.azimuth.degrees(), 180.0, 1e-4);
    EXPECT_NEAR(noon.altitude.angle.degrees(), south.highest.angle.degrees(), 1e-6);
}

TEST(HalfDay, AZoneTwelveHoursOffStillGetsANoonForEveryDate) {
    for (sys_days day = date("2026-01-01"); day < sys_days(date("2027-01-01")); day += days(1)) {
        ASSERT_TRUE(half_day_of(sea_level(0.0, 180.0), zone("UTC"), CivilDate(day), EventKind::kDawn));
    }
}

// --- outcomes
// ------------------------------------------------------------------------------------------------

TEST(SunCrossing, TellsTheLowestPointOfAPolarDay) {
    const auto day = std::get<NeverBelow>(outcome(sea_level(69.6492, 18.9553), "Europe/Oslo", "2026-06-21",
                                                  EventKind::kDawn, standard_rise_altitude()));
    EXPECT_NEAR(day.lowest.angle.degrees(), 3.0845, 0.0005);  // latitude + declination - 90 - parallax
    EXPECT_EQ(zone("Europe/Oslo").clock(day.when), "00:46");
}

TEST(SunCrossing, TellsTheHighestPointOfAPolarNight) {
    const auto night = std::get<NeverAbove>(outcome(sea_level(69.6492, 18.9553), "Europe/Oslo", "2026-12-21",
                                                    EventKind::kDawn, standard_rise_altitude()));
    EXPECT_NEAR(night.highest.angle.degrees(), -3.089, 0.002);
    EXPECT_EQ(zone("Europe/Oslo").clock(night.when), "11:42");
}

/// The sun's declination changes the day's lowest and highest point by less than this between both half days.
constexpr double kDrift_deg = 0.001;

/// Latitudes 64 to 89.95 deg in steps of 0.05 deg.
constexpr int kPolarSteps = 520;
double polar_lat_deg(int step) {
    return 64.0 + 0.05 * step;
}

TEST(SunCrossing, PolarDayBeginsExactlyWhereTheSunsLowestPointSaysSo) {
    int days_of_light = 0;
    int with_set = 0;
    for (int step = 0; step < kPolarSteps; ++step) {
        const double lat = polar_lat_deg(step);
        const Observer observer = sea_level(lat, 20.0);
        const HalfDay dusk = half_day(observer, "Europe/Oslo", "2026-06-21", EventKind::kDusk);
        const auto result = sun_crossing(observer, dusk, standard_rise_altitude());
        if (dusk.lowest.angle.degrees() > -50.0 / 60.0 + kDrift_deg) {
            ASSERT_TRUE(std::holds_alternative<NeverBelow>(result)) << lat;
            ++days_of_light;
        } else if (dusk.lowest.angle.degrees() < -50.0 / 60.0 - kDrift_deg) {
            ASSERT_TRUE(std::holds_alternative<Crossing>(result)) << lat;
            ++with_set;
        }
    }
    // Critical latitude: 90 - 23.4359 - 0.8333 = 65.731.
    EXPECT_EQ(with_set, 35);
    EXPECT_EQ(days_of_light, kPolarSteps - 35);
}

TEST(SunCrossing, PolarNightBeginsExactlyWhereTheSunsHighestPointSaysSo) {
    int nights = 0;
    int with_rise = 0;
    for (int step = 0; step < kPolarSteps; ++step) {
        const double lat = polar_lat_deg(step);
        const Observer observer = sea_level(lat, 20.0);
        const auto result =
            outcome(observer, "Europe/Oslo", "2026-12-21", EventKind::kDawn, standard_rise_altitude());
        ASSERT_FALSE(std::holds_alternative<NeverBelow>(result)) << lat;
        ++(std::holds_alternative<NeverAbove>(result) ? nights : with_rise);
    }
    // Critical latitude: 90 - 23.4359 + 0.8333 = 67.397.
    EXPECT_EQ(with_rise, 68);
    EXPECT_EQ(nights, kPolarSteps - 68);
}

TEST(SunCrossing, TwilightNeverEndsInSummerNightsOfTheNorth) {
    const auto lowest_deg = [](double lat, double asked) {
        const auto result =
            outcome(sea_level(lat, 0.0), "Europe/London", "2026-06-21", EventKind::kDusk, altitude(asked));
        return std::holds_alternative<NeverBelow>(result)
                   ? std::get<NeverBelow>(result).lowest.angle.degrees()
                   : -90.0;
    };
    // The night of the solstice is (90 - 23.436 - lat) deep: -6 is missed from 60.56, -12 from 54.56, -18
    // from 48.56.
    EXPECT_GT(lowest_deg(60.62, -6.0), -6.0);
    EXPECT_EQ(lowest_deg(60.50, -6.0), -90.0);
    EXPECT_GT(lowest_deg(54.62, -12.0), -12.0);
    EXPECT_EQ(lowest_deg(54.50, -12.0), -90.0);
    EXPECT_GT(lowest_deg(48.62, -18.0), -18.0);
    EXPECT_EQ(lowest_deg(48.50, -18.0), -90.0);
}

TEST(SunCrossing, DawnRisesAndDuskSetsWhereverTheSunDoesBoth) {
    for (int lat = -64; lat <= 64; lat += 4) {
        for (const char* day : {"2026-03-20", "2026-06-21", "2026-12-21"}) {
            const Observer observer = sea_level(lat, -75.0);
            for (const double asked : {-6.0, -50.0 / 60.0, 1.0}) {
                const auto dawn =
                    outcome(observer, "America/New_York", day, EventKind::kDawn, altitude(asked));
                const auto dusk =
                    outcome(observer, "America/New_York", day, EventKind::kDusk, altitude(asked));
                if (const auto* rise = std::get_if<Crossing>(&dawn)) {
                    ASSERT_TRUE(rise->rising) << lat << day;
                    ASSERT_FALSE(std::get<Crossing>(dusk).rising) << lat << day;
                }
            }
        }
    }
}

TEST(SunCrossing, ADawnThatFirstSetsIsToldByItsRise) {
    // In late summer the far north's lowest sun comes after midnight: a level between both is passed twice.
    const Observer observer = sea_level(85.0, 20.0);
    const HalfDay dawn = half_day(observer, "Europe/Oslo", "2026-08-20", EventKind::kDawn);
    const auto stays = std::get<NeverBelow>(sun_crossing(observer, dawn, altitude(0.0)));
    ASSERT_LT(stays.lowest, dawn.lowest);
    const TrueAltitude between{(stays.lowest.angle + dawn.lowest.angle) * 0.5};
    ASSERT_EQ(crossings(Body::kSun, observer, dawn.span, between).size(), 2U);
    EXPECT_TRUE(std::get<Crossing>(sun_crossing(observer, dawn, between)).rising);
}

TEST(SunCrossing, AgreesWithTheSearchOverTheWholeDay) {
    const Observer observer = sea_level(57.5, -6.25);
    const HalfDay dawn = half_day(observer, "Europe/London", "2026-10-12", EventKind::kDawn);
    const auto whole =
        crossings(Body::kSun, observer, zone("Europe/London").span_of(date("2026-10-12")).value(),
                  standard_rise_altitude());
    ASSERT_EQ(whole.size(), 2U);
    EXPECT_EQ(std::get<Crossing>(sun_crossing(observer, dawn, standard_rise_altitude())).instant,
              whole[0].instant);
}

TEST(SunCrossing, TheSouthPoleGetsItsOneSunsetInOneHalfDay) {
    const Observer pole = sea_level(-90.0, 0.0);
    int passages = 0;
    for (sys_days day = date("2026-03-10"); day < sys_days(date("2026-04-01")); day += days(1)) {
        for (const EventKind kind : {EventKind::kDawn, EventKind::kDusk}) {
            const auto half = half_day_of(pole, zone("UTC"), CivilDate(day), kind).value();
            const auto result = sun_crossing(pole, half, standard_rise_altitude());
            if (const auto* set = std::get_if<Crossing>(&result)) {
                EXPECT_FALSE(set->rising);
                EXPECT_EQ(CivilDate(std::chrono::floor<days>(set->instant)), date("2026-03-22"));
                ++passages;
            }
        }
    }
    EXPECT_EQ(passages, 1);
}

// 65 deg north at midsummer: the sun comes no lower than a degree or two below the horizon.
TEST(SunCrossings, AreThoseOfEachAltitudeAlone) {
    const Observer observer = sea_level(65.0, 25.0);
    const HalfDay dawn = half_day(observer, "Europe/Helsinki", "2026-06-21", EventKind::kDawn);
    const std::vector<TrueAltitude> asked{altitude(3.0), altitude(-6.0), altitude(0.0)};
    const auto together = sun_crossings(observer, dawn, asked);
    ASSERT_EQ(together.size(), asked.size());
    for (std::size_t i : {0U, 2U}) {
        EXPECT_EQ(std::get<Crossing>(together[i]).instant,
                  std::get<Crossing>(sun_crossing(observer, dawn, asked[i])).instant);
    }
    EXPECT_TRUE(std::holds_alternative<NeverBelow>(together[1]));
}

}  // namespace
}  // namespace gloam::astro
