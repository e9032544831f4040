#include "outlook/moments.hpp"

#include <gmock/gmock.h>

#include <algorithm>

namespace gloam::outlook {
namespace {

using ::testing::HasSubstr;

Result<std::vector<Moment>> moments_at(double lat_deg, double lon_deg, const char* date,
                                       astro::EventKind kind) {
    const astro::Observer observer{{lat_deg, lon_deg}, HeightMsl{0.0}};
    const auto half_day = astro::half_day_of(observer, geo::Zone::named("Etc/UTC").value(),
                                             parse_civil_date(date).value(), kind);
    return moments_of(observer, half_day.value());
}

std::vector<Moment> rome(astro::EventKind kind) {
    return moments_at(41.9, 12.5, "2025-03-20", kind).value();
}

std::vector<double> elevations_deg(const std::vector<Moment>& moments) {
    std::vector<double> all;
    for (const Moment& moment : moments) {
        all.push_back(moment.sun.elevation.degrees());
    }
    return all;
}

bool in_time_order(const std::vector<Moment>& moments) {
    return std::is_sorted(moments.begin(), moments.end(),
                          [](const Moment& a, const Moment& b) { return a.instant < b.instant; });
}

TEST(Moments, StandEveryQuarterOrHalfDegree) {
    const auto elevations = elevations_deg(rome(astro::EventKind::kDawn));
    ASSERT_EQ(elevations.size(), 58U);  // -9 to -7 by .5: 5; -6.5 to 3 by .25: 39; 3.5 to 10 by .5: 14
    EXPECT_NEAR(elevations.front(), -9.0, 1e-9);
    EXPECT_NEAR(elevations.back(), 10.0, 1e-9);
    for (std::size_t i = 1; i < elevations.size(); ++i) {
        const bool fine = elevations[i] > -6.4 && elevations[i] < 3.1;
        EXPECT_NEAR(elevations[i] - elevations[i - 1], fine ? 0.25 : 0.5, 1e-9) << elevations[i];
    }
}

TEST(Moments, OfADawnRise) {
    const auto moments = rome(astro::EventKind::kDawn);
    EXPECT_TRUE(in_time_order(moments));
    EXPECT_LT(moments.front().sun.elevation, moments.back().sun.elevation);
}

TEST(Moments, OfADuskFall) {
    const auto moments = rome(astro::EventKind::kDusk);
    EXPECT_TRUE(in_time_order(moments));
    EXPECT_GT(moments.front().sun.elevation, moments.back().sun.elevation);
}

TEST(Moments, KnowWhereTheSunIs) {
    for (const Moment& moment : rome(astro::EventKind::kDawn)) {
        const auto sun = position_of(astro::Body::kSun, {{41.9, 12.5}, HeightMsl{0.0}}, moment.instant);
        EXPECT_NEAR(sun.altitude.angle.degrees(), moment.sun.elevation.degrees(), 1e-3);
        EXPECT_NEAR(sun.azimuth.degrees(), moment.azimuth.degrees(), 1e-3);
    }
}

TEST(Moments, KnowHowFarTheSunIs) {  // perihelion 4 January, aphelion 3 July 2025
    EXPECT_NEAR(moments_at(37, 15, "2025-01-04", astro::EventKind::kDawn).value()[20].sun.distance_au, 0.9833,
                2e-4);
    EXPECT_NEAR(moments_at(37, 15, "2025-07-03", astro::EventKind::kDawn).value()[20].sun.distance_au, 1.0167,
                2e-4);
}

TEST(Moments, DoNotExistAtThePoleInJune) {
    const auto moments = moments_at(90, 0, "2025-06-21", astro::EventKind::kDawn);
    ASSERT_FALSE(moments);
    EXPECT_EQ(moments.error().kind, ErrorKind::kNotFound);
    EXPECT_THAT(moments.error().message, HasSubstr("stays up: it sinks no lower than +23.4 deg"));
    EXPECT_THAT(moments.error().hint, HasSubstr("another date"));
}

TEST(Moments, DoNotExistInTheDepthOfThePolarNight) {
    const auto moments = moments_at(85, 20, "2025-12-21", astro::EventKind::kDusk);
    ASSERT_FALSE(moments);
    EXPECT_EQ(moments.error().kind, ErrorKind::kNotFound);
    EXPECT_THAT(moments.error().message, HasSubstr("stays down: it climbs no higher than -18.4 deg"));
}

TEST(Moments, OfAPolarTwilightEndWhereTheSunTurnsBack) {  // Tromso in December: no sunrise, but twilight
    const auto elevations =
        elevations_deg(moments_at(69.65, 18.96, "2025-12-21", astro::EventKind::kDawn).value());
    EXPECT_NEAR(elevations.front(), -9.0, 1e-9);
    EXPECT_NEAR(elevations.back(), -3.25, 1e-9);  // noon: 90 - 69.65 - 23.44 = -3.09
}

TEST(Moments, OfAWhiteNightBeginWhereTheSunTurnsBack) {  // Helsinki at midsummer: -6.4 deg at midnight
    const auto elevations =
        elevations_deg(moments_at(60.17, 24.94, "2025-06-21", astro::EventKind::kDawn).value());
    EXPECT_NEAR(elevations.front(), -6.25, 1e-9);
    EXPECT_NEAR(elevations.back(), 10.0, 1e-9);
}

}  // namespace
}  // namespace gloam::outlook
