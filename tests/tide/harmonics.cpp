// The tide of invented harmonic constants.
#include "tide/harmonics.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace gloam::tide {
namespace {

using testing::HasSubstr;

Instant at(const char* text) {
    return parse_rfc3339(text).value();
}

HarmonicPort port_of(std::string_view wave, double amplitude_m, double lag_deg = 0.0) {
    return {"Invented Haven",
            "LAT",
            parse_civil_date("2025-11-01").value(),
            3.0,
            {{wave_named(wave).value(), amplitude_m, Angle::degrees(lag_deg)}}};
}

TEST(Harmonics, OfTheSunStandHighestAtNoonAndMidnight) {
    const HarmonicPort port = port_of("S2", 1.5);
    for (const char* time : {"2026-03-01T00:00:00Z", "2026-03-01T12:00:00Z"}) {
        EXPECT_NEAR(predicted_height(port, at(time)).metres, 4.5, 1e-6) << time;
    }
    EXPECT_NEAR(predicted_height(port, at("2026-03-01T06:00:00Z")).metres, 1.5, 1e-6);
}

TEST(Harmonics, ComeLaterByTheirLag) {
    EXPECT_NEAR(predicted_height(port_of("S2", 1.5, 30.0), at("2026-03-01T13:00:00Z")).metres, 4.5, 1e-6);
}

TEST(Harmonics, BearTheDatumOfTheirPort) {
    EXPECT_EQ(predicted_height(port_of("S2", 1.5), at("2026-03-01T00:00:00Z")).datum, "LAT");
}

TEST(Harmonics, GiveATableThatSaysItIsNoOfficialOne) {
    const TideTable table =
        predicted_table(port_of("M2", 1.5), {at("2026-03-01T00:00:00Z"), at("2026-03-02T00:00:00Z")});
    EXPECT_THAT(table.source, HasSubstr("not from an official table: get one"));
    EXPECT_THAT(table.source, HasSubstr("not for navigation"));
    EXPECT_EQ(table.port, "Invented Haven");
    EXPECT_EQ(table.datum, "LAT");
}

TEST(Harmonics, GiveATableOfTheirSpanWithItsTurns) {
    const geo::InstantSpan span{at("2026-03-01T01:00:00Z"), at("2026-03-02T01:00:00Z")};
    const TideTable table = predicted_table(port_of("S2", 1.5), span);
    EXPECT_LE(table.rows.front().instant, span.begin);
    EXPECT_GE(table.rows.back().instant, span.end);
    const auto noon = next_turn(table, TideKind::kHigh, span.begin);
    ASSERT_TRUE(noon);
    EXPECT_LT(std::abs(hours_between(at("2026-03-01T12:00:00Z"), noon->instant)), 1.0 / 3600.0);
    const auto morning = next_turn(table, TideKind::kLow, span.begin);
    ASSERT_TRUE(morning);
    EXPECT_LT(std::abs(hours_between(at("2026-03-01T06:00:00Z"), morning->instant)), 1.0 / 3600.0);
}

TEST(Harmonics, GiveATableThatFollowsTheirHeights) {
    const HarmonicPort port = port_of("M2", 3.0);
    const Instant begin = at("2026-03-01T00:00:00Z");
    const TideTable table = predicted_table(port, {begin, begin + std::chrono::hours(24)});
    for (int minute = 0; minute <= 24 * 60; ++minute) {
        const Instant instant = begin + std::chrono::minutes(minute);
        ASSERT_NEAR(height_at(table, instant).value().metres, predicted_height(port, instant).metres, 0.003);
    }
}

TEST(Waves, AreRefusedUnderUnknownNames) {
    for (const char* name : {"", "m2", "M2 ", "NO1", "LAMBDA2"}) {
        const auto wave = wave_named(name);
        ASSERT_FALSE(wave) << name;
        EXPECT_EQ(wave.error().kind, ErrorKind::kNotFound);
    }
}

TEST(Waves, OfTheMoonSwingAboutOneOverATurnOfTheNode) {
    const Instant begin = at("2006-06-01T00:00:00Z");
    for (const char* name : {"M2", "O1", "K1", "K2", "MM", "MF", "J1", "2MK3"}) {
        const Wave wave = wave_named(name).value();
        constexpr int kSteps = 680;
        double sum = 0.0;
        double phase_deg = 0.0;
        for (int step = 0; step < kSteps; ++step) {
            const auto correction =
                nodal_correction(wave, longitudes_at(begin + std::chrono::days(10 * step)));
            sum += correction.factor;
            phase_deg += correction.phase.degrees();
        }
        EXPECT_NEAR(sum / kSteps, 1.0, 0.06) << name;
        EXPECT_NEAR(phase_deg / kSteps, 0.0, 0.2) << name;
    }
}

TEST(Waves, OfTheSunDoNotSwing) {
    for (const char* name : {"S2", "P1", "SA", "T2"}) {
        const auto correction =
            nodal_correction(wave_named(name).value(), longitudes_at(at("2026-03-01T00:00:00Z")));
        EXPECT_EQ(correction.factor, 1.0) << name;
        EXPECT_EQ(correction.phase, Angle{}) << name;
    }
}

TEST(Waves, AreNearlyTheSameBeforeAndAfterTheNodePassesHalfATurn) {
    const Wave m2 = wave_named("M2").value();
    Longitudes before;
    before.node = Angle::degrees(179.999);
    Longitudes after;
    after.node = Angle::degrees(-179.999);
    EXPECT_NEAR(nodal_correction(m2, before).factor, nodal_correction(m2, after).factor, 1e-9);
    EXPECT_NEAR(nodal_correction(m2, before).phase.degrees(), nodal_correction(m2, after).phase.degrees(),
                1e-3);
}

}  // namespace
}  // namespace gloam::tide
