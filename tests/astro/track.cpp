#include "astro/track.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <cstdio>
#include <random>

#include "base/check.hpp"
#include "reference/astro/worst.hpp"

namespace gloam::astro {
namespace {

using test::separation_deg;
using test::Worst;

const Instant kBegin = parse_rfc3339("1995-03-01T05:17:00Z").value();
const Instant kEnd = parse_rfc3339("2055-03-01T05:17:00Z").value();
const Observer kSkye{{57.5, -6.25}, HeightMsl{120.0}};

class EachBody : public ::testing::TestWithParam<Body> {};

TEST_P(EachBody, TrackAgreesWithTheTheoryToAThousandthOfASecondOfArc) {
    std::mt19937_64 random(7);
    std::uniform_int_distribution<Duration::rep> offset(0, (kEnd - kBegin).count());
    Worst worst;
    for (int i = 0; i < 300; ++i) {
        const Instant begin = kBegin + Duration(offset(random));
        const Track track(GetParam(), {begin, begin + std::chrono::hours(30)});
        for (int hour = 0; hour <= 30; hour += 5) {
            const Instant at = begin + std::chrono::hours(hour);
            const auto slow = position_of(GetParam(), kSkye, at);
            const auto fast = track.seen_from(Station(kSkye), at);
            worst.add(
                3600.0 * separation_deg(slow.azimuth, slow.altitude.angle, fast.azimuth, fast.altitude.angle),
                to_rfc3339_utc(at));
            ASSERT_NEAR(slow.distance_m, fast.distance_m, 1e-8 * slow.distance_m);
        }
    }
    worst.report(GetParam() == Body::kSun ? "track of the sun" : "track of the moon", "arcsec");
    EXPECT_LT(worst.value(), 0.001);
}

TEST_P(EachBody, TracksOfDifferentSpansAgreeToTheLastBit) {
    const Track small(GetParam(), {kBegin, kBegin + std::chrono::hours(1)});
    const Track large(GetParam(), {kBegin - std::chrono::hours(200), kBegin + std::chrono::hours(300)});
    for (int minute = 0; minute <= 60; minute += 7) {
        const auto a = small.seen_from(Station(kSkye), kBegin + std::chrono::minutes(minute));
        const auto b = large.seen_from(Station(kSkye), kBegin + std::chrono::minutes(minute));
        EXPECT_EQ(a.altitude, b.altitude);
        EXPECT_EQ(a.azimuth, b.azimuth);
    }
}

TEST_P(EachBody, TrackRefusesInstantsFarOutsideItsSpan) {
    const Track track(GetParam(), {kBegin, kBegin + std::chrono::hours(1)});
    EXPECT_THROW(track.place_at(kBegin - std::chrono::hours(48)), InternalError);
    EXPECT_THROW(track.place_at(kBegin + std::chrono::hours(48)), InternalError);
    EXPECT_NO_THROW(track.place_at(kBegin));
    EXPECT_NO_THROW(track.place_at(kBegin + std::chrono::hours(1)));
}

TEST_P(EachBody, TrackWorksAcrossTheYear1970) {
    const Instant begin = parse_rfc3339("1969-12-31T20:59:59.999Z").value();
    const Track track(GetParam(), {begin, begin + std::chrono::hours(6)});
    const auto slow = position_of(GetParam(), kSkye, begin);
    const auto fast = track.seen_from(Station(kSkye), begin);
    EXPECT_NEAR(slow.altitude.angle.degrees(), fast.altitude.angle.degrees(), 1e-6);
}

INSTANTIATE_TEST_SUITE_P(, EachBody, ::testing::Values(Body::kSun, Body::kMoon),
                         [](const auto& body) { return body.param == Body::kSun ? "Sun" : "Moon"; });

double microseconds_each(int count, const std::function<void(int)>& work) {
    const auto start = std::chrono::steady_clock::now();
    for (int i = 0; i < count; ++i) {
        work(i);
    }
    return std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start).count() /
           count;
}

TEST(Track, IsManyTimesFasterThanTheTheory) {
    const Track track(Body::kSun, {kBegin, kBegin + std::chrono::hours(24)});
    const Station station(kSkye);
    double sum = 0.0;
    const double slow_us = microseconds_each(500, [&](int i) {
        sum += position_of(Body::kSun, kSkye, kBegin + std::chrono::seconds(i)).altitude.angle.radians();
    });
    const double fast_us = microseconds_each(20'000, [&](int i) {
        sum += track.seen_from(station, kBegin + std::chrono::seconds(i)).altitude.angle.radians();
    });
    std::printf("sun by theory %.1f us, by track %.2f us (%g)\n", slow_us, fast_us, sum);
    EXPECT_LT(fast_us, slow_us / 5.0);
}

}  // namespace
}  // namespace gloam::astro
