// What synthetic messages say they hold: parameter, level, time, member, source.
#include <gmock/gmock.h>

#include <chrono>

#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using std::chrono::minutes;
using synthetic::SyntheticMessage;
using ::testing::HasSubstr;

std::optional<double> some_cover(double /*lat_deg*/, double /*lon_deg*/) {
    return 40.0;
}

Field field_of(const SyntheticMessage& about) {
    return read(message(about, some_cover)).fields.at(0);
}

std::string reason_to_skip(const SyntheticMessage& about) {
    const Forecast forecast = read(message(about, some_cover));
    EXPECT_TRUE(forecast.fields.empty());
    EXPECT_EQ(forecast.messages, 1U);
    return forecast.skipped.empty() ? "not skipped" : forecast.skipped[0].reason;
}

TEST(SyntheticIdentity, TheLevelTypeTellsTheCoversApart) {
    EXPECT_EQ(field_of({.level_type = 100}).level.kind, LevelKind::kPressure);
    EXPECT_EQ(field_of({.level_type = 10}).level.kind, LevelKind::kWholeAtmosphere);
    EXPECT_EQ(field_of({.level_type = 200}).level.kind, LevelKind::kWholeAtmosphere);
    EXPECT_EQ(field_of({.level_type = 244}).level.kind, LevelKind::kConvective);
    EXPECT_EQ(field_of({.level_type = 211}).level.kind, LevelKind::kBoundaryLayer);
}

TEST(SyntheticIdentity, ThePressureIsInPascal) {
    EXPECT_DOUBLE_EQ(field_of({.pressure_pa = 92.5e3}).level.pressure_pa, 92.5e3);
    EXPECT_DOUBLE_EQ(field_of({.pressure_pa = 150.0}).level.pressure_pa, 150.0);
}

TEST(SyntheticIdentity, CoverByNumber22IsReadOnPressureLevels) {
    EXPECT_EQ(field_of({.number = 22}).level.kind, LevelKind::kPressure);
    EXPECT_THAT(reason_to_skip({.number = 22, .level_type = 10}), HasSubstr("level"));
}

TEST(SyntheticIdentity, WhatIsNotUsedIsSkippedWithItsReason) {
    EXPECT_THAT(reason_to_skip({.category = 1, .number = 1}), HasSubstr("0/1/1"));
    EXPECT_THAT(reason_to_skip({.category = 6, .number = 3}), HasSubstr("0/6/3"));
    EXPECT_THAT(reason_to_skip({.category = 19, .number = 253}), HasSubstr("0/19/253"));
    EXPECT_THAT(reason_to_skip({.level_type = 214}), HasSubstr("level"));
    EXPECT_THAT(reason_to_skip({.level_type = 1}), HasSubstr("level"));
    EXPECT_THAT(reason_to_skip({.pressure_pa = 50.0}), HasSubstr("level"));
    EXPECT_THAT(reason_to_skip({.centre = 7, .number = 192}), HasSubstr("0/6/192"));  // ECMWF's own number
    EXPECT_THAT(reason_to_skip({.edition = 1, .number = 11}), HasSubstr("parameter 11 of table 2"));
}

TEST(SyntheticIdentity, AnInstantIsValidAtRunTimePlusStep) {
    const Field field = field_of({.from = minutes(540), .to = minutes(540)});
    EXPECT_EQ(field.time_kind, TimeKind::kInstant);
    EXPECT_EQ(field.from, at("2025-01-29T09:00:00Z"));
    EXPECT_EQ(field.to, at("2025-01-29T09:00:00Z"));
}

TEST(SyntheticIdentity, StepsOfMinutesAreNotRounded) {
    EXPECT_EQ(field_of({.from = minutes(375), .to = minutes(375)}).to, at("2025-01-29T06:15:00Z"));
    EXPECT_EQ(field_of({.edition = 1, .from = minutes(45), .to = minutes(45), .number = 71}).to,
              at("2025-01-29T00:45:00Z"));
}

TEST(SyntheticIdentity, ARunTimeWithMinutesIsKept) {
    const Field field =
        field_of({.run_time = at("2024-02-29T22:30:00Z"), .from = minutes(120), .to = minutes(120)});
    EXPECT_EQ(field.to, at("2024-03-01T00:30:00Z"));
}

TEST(SyntheticIdentity, AnAverageKeepsItsSpan) {
    const Field field = field_of({.from = minutes(360), .to = minutes(540), .level_type = 10});
    EXPECT_EQ(field.time_kind, TimeKind::kAverage);
    EXPECT_EQ(field.from, at("2025-01-29T06:00:00Z"));
    EXPECT_EQ(field.to, at("2025-01-29T09:00:00Z"));
}

TEST(SyntheticIdentity, MembersAreTold_ADeterministicRunHasNone) {
    EXPECT_EQ(field_of({}).member, std::nullopt);
    EXPECT_EQ(field_of({.member = 0}).member, 0);
    EXPECT_EQ(field_of({.member = 17}).member, 17);
}

TEST(SyntheticIdentity, TheSourceIsInWords) {
    EXPECT_EQ(read(message({}, some_cover)).source, "NCEP GFS");
    EXPECT_THAT(read(message({.process = 11}, some_cover)).source, HasSubstr("NCEP"));
    EXPECT_THAT(read(message({.centre = 78, .process = 2}, some_cover)).source, HasSubstr("Offenbach"));
}

TEST(SyntheticIdentity, TwoRunsInOneFileAreRefused) {
    const auto early = message({}, some_cover);
    const auto late = message({.run_time = at("2025-01-29T06:00:00Z")}, some_cover);
    const Error error = refusal(synthetic::joined({early, late}));
    EXPECT_EQ(error.kind, ErrorKind::kBadInput);
    EXPECT_EQ(error.where, "synthetic.grib2, message 2");
    EXPECT_THAT(error.message, HasSubstr("2025-01-29T06:00:00Z"));
    EXPECT_FALSE(error.hint.empty());
}

}  // namespace
}  // namespace gloam::weather
