// What synthetic messages say they hold: parameter, level, time, member, source.
#include <gmock/gmock.h>

#include <chrono>
#include <cmath>

#include "weather/grib/product.hpp"
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

TEST(SyntheticIdentity, TotalCoverWrittenAtTheGroundIsThatOfTheWholeAtmosphere) {
    EXPECT_EQ(field_of({.centre = 85, .number = 1, .level_type = 1}).level.kind, LevelKind::kWholeAtmosphere);
    EXPECT_EQ(field_of({.edition = 1, .number = 71, .level_type = 1}).level.kind,
              LevelKind::kWholeAtmosphere);
}

TEST(SyntheticIdentity, NcepsLevelTypesTellTheLayersApart_WhateverTheirNumber) {
    for (const long edition : {1L, 2L}) {
        const long number = edition == 1 ? 71 : 1;
        for (const Band band : kBands) {
            const long type = 214 + 10 * static_cast<long>(index_of(band));
            const Level level =
                field_of({.edition = static_cast<int>(edition), .number = number, .level_type = type}).level;
            EXPECT_EQ(level.kind, LevelKind::kCloudLayer) << type;
            EXPECT_EQ(level.band, band) << type;
        }
    }
    EXPECT_EQ(field_of({.number = 4, .level_type = 224}).level.band, Band::kMiddle);
}

TEST(SyntheticIdentity, TheWmosNumbersTellTheLayersApart_WhateverTheirLevel) {
    EXPECT_EQ(field_of({.centre = 98, .number = 3, .level_type = 1}).level.band, Band::kLow);
    EXPECT_EQ(field_of({.centre = 98, .number = 4, .level_type = 1}).level.band, Band::kMiddle);
    EXPECT_EQ(field_of({.centre = 98, .number = 5, .level_type = 10}).level.band, Band::kHigh);
    EXPECT_EQ(field_of({.edition = 1, .number = 73, .level_type = 1}).level.band, Band::kLow);
    EXPECT_EQ(field_of({.edition = 1, .number = 75, .level_type = 1}).level.band, Band::kHigh);
}

TEST(SyntheticIdentity, EcmwfsLayersAreFractions) {
    const auto third = [](double, double) { return std::optional(1.0 / 3.0); };
    const Forecast two = read(message({.centre = 98, .number = 194, .level_type = 1}, third));
    EXPECT_EQ(two.fields.at(0).level.band, Band::kMiddle);
    EXPECT_NEAR(value_of(two.fields[0], {45, 0}), 1.0 / 3.0, 1e-5);
    const Forecast one =
        read(message({.edition = 1, .centre = 98, .number = 188, .table = 128, .level_type = 1}, third));
    EXPECT_EQ(one.fields.at(0).level.band, Band::kHigh);
    EXPECT_NEAR(value_of(one.fields[0], {45, 0}), 1.0 / 3.0, 1e-5);
}

TEST(SyntheticIdentity, DwdsLayersShareANumberAndAreToldApartByTheirPressures) {
    const auto layer = [](double top_pa, long second_type, double bottom_pa, long scale) {
        return field_of({.centre = 78,
                         .number = 22,
                         .pressure_pa = top_pa,
                         .second_level_type = second_type,
                         .second_pressure_pa = bottom_pa,
                         .level_scale = scale})
            .level;
    };
    for (const long scale : {0L, -2L}) {  // 80000 Pa, or 800 and two zeros
        EXPECT_EQ(layer(800e2, 1, 0, scale).band, Band::kLow) << scale;
        EXPECT_EQ(layer(400e2, 100, 800e2, scale).band, Band::kMiddle) << scale;
        EXPECT_EQ(layer(0, 100, 400e2, scale).band, Band::kHigh) << scale;
        EXPECT_EQ(layer(0, 100, 400e2, scale).kind, LevelKind::kCloudLayer) << scale;
    }
}

TEST(SyntheticIdentity, OtherLayersBetweenPressuresAreNotUsed) {
    EXPECT_THAT(
        reason_to_skip(
            {.number = 22, .pressure_pa = 500e2, .second_level_type = 100, .second_pressure_pa = 550e2}),
        HasSubstr("level type 100"));
}

TEST(SyntheticIdentity, BaseAndTopOfTheLayersArePressures) {
    const auto edge = [](long type) {
        return read(message({.category = 3, .number = 0, .level_type = type},
                            [](double, double) { return std::optional(65e3); }))
            .fields.at(0);
    };
    EXPECT_EQ(edge(212).level.kind, LevelKind::kCloudBase);
    EXPECT_EQ(edge(212).level.band, Band::kLow);
    EXPECT_EQ(edge(233).level.kind, LevelKind::kCloudTop);
    EXPECT_EQ(edge(233).level.band, Band::kHigh);
    EXPECT_EQ(edge(223).quantity, Quantity::kPressure);
    EXPECT_NEAR(value_of(edge(223), {45, 0}), 65e3, 1.0);
}

TEST(SyntheticIdentity, WhatIsNotUsedIsSkippedWithItsReason) {
    EXPECT_THAT(reason_to_skip({.category = 2, .number = 10}), HasSubstr("0/2/10"));
    EXPECT_THAT(reason_to_skip({.category = 19, .number = 253}), HasSubstr("0/19/253"));
    EXPECT_THAT(reason_to_skip({.number = 22, .level_type = 1}), HasSubstr("level type 1"));
    EXPECT_THAT(reason_to_skip({.pressure_pa = 50.0}), HasSubstr("level type 100"));
    EXPECT_THAT(reason_to_skip({.centre = 7, .number = 192}), HasSubstr("0/6/192"));  // ECMWF's own number
    EXPECT_THAT(reason_to_skip({.edition = 1, .number = 13}), HasSubstr("parameter 13 of table 2"));
    EXPECT_THAT(reason_to_skip({.category = 20, .number = 102, .level_type = 10}), HasSubstr("template 4.0"));
}

/// Parameter, level and unit of what is read of the air near the ground.
struct NearGround {
    const char* name;
    SyntheticMessage message;
    double written;
    Quantity quantity;
    double kept;
};

class SyntheticNearGround : public ::testing::TestWithParam<NearGround> {};

TEST_P(SyntheticNearGround, IsReadInOurUnit) {
    const NearGround& given = GetParam();
    const Forecast forecast =
        read(message(given.message, [&](double, double) { return std::optional(given.written); }));
    ASSERT_EQ(forecast.fields.size(), 1U);
    EXPECT_EQ(forecast.fields[0].quantity, given.quantity);
    EXPECT_NEAR(value_of(forecast.fields[0], {45, 0}), given.kept, 1e-4 * std::abs(given.kept));
}

INSTANTIATE_TEST_SUITE_P(
    , SyntheticNearGround,
    ::testing::Values(
        NearGround{"temperature",
                   {.category = 0, .number = 0, .level_type = 103, .level_value = 2},
                   281.5,
                   Quantity::kTemperature,
                   281.5},
        NearGround{"dew_point",
                   {.category = 0, .number = 6, .level_type = 103, .level_value = 2},
                   277.0,
                   Quantity::kDewPoint,
                   277.0},
        NearGround{"humidity",
                   {.category = 1, .number = 1, .level_type = 103, .level_value = 2},
                   96.0,
                   Quantity::kRelativeHumidity,
                   0.96},
        NearGround{"wind",
                   {.category = 2, .number = 2, .level_type = 103, .level_value = 10},
                   -4.0,
                   Quantity::kWindEast,
                   -4.0},
        NearGround{"gust", {.category = 2, .number = 22, .level_type = 1}, 17.0, Quantity::kGust, 17.0},
        NearGround{"visibility",
                   {.category = 19, .number = 0, .level_type = 1},
                   24135.0,
                   Quantity::kVisibility,
                   24135.0},
        NearGround{"precipitation",
                   {.from = minutes(180), .category = 1, .number = 8, .level_type = 1},
                   2.5,
                   Quantity::kPrecipitation,
                   2.5},
        NearGround{"ecmwf_precipitation",
                   {.edition = 1, .centre = 98, .number = 228, .table = 128, .level_type = 1},
                   0.0025,
                   Quantity::kPrecipitation,
                   2.5},
        NearGround{"cape", {.category = 7, .number = 6, .level_type = 1}, 900.0, Quantity::kCape, 900.0},
        NearGround{
            "ozone", {.category = 14, .number = 0, .level_type = 200}, 331.0, Quantity::kOzoneColumn, 331.0},
        NearGround{"ecmwf_ozone",
                   {.edition = 1, .centre = 98, .number = 206, .table = 128, .level_type = 1},
                   331.0 * 2.1415e-5,
                   Quantity::kOzoneColumn,
                   331.0},
        NearGround{"ecmwf_dust",
                   {.edition = 1, .centre = 98, .number = 209, .table = 210, .level_type = 1},
                   0.31,
                   Quantity::kAerosolDepth,
                   0.31},
        NearGround{"ecmwf_dust_in_edition_2",
                   {.centre = 98, .discipline = 192, .category = 210, .number = 209, .level_type = 1},
                   0.31,
                   Quantity::kAerosolDepth,
                   0.31},
        NearGround{
            "ceiling", {.category = 6, .number = 13, .level_type = 1}, 850.0, Quantity::kCloudHeight, 850.0}),
    [](const auto& given) { return std::string(given.param.name); });

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

/// The average of three hours with one octet of its section 4 changed (counted from 1, as the tables do).
Forecast average_with(std::size_t octet, int value) {
    synthetic::Bytes bytes = message({.from = minutes(0), .level_type = 10}, some_cover);
    std::size_t at = 16;
    while (std::to_integer<int>(bytes[at + 4]) != 4) {
        at += static_cast<std::size_t>(big_endian(bytes, at, 4));
    }
    bytes[at + octet - 1] = static_cast<std::byte>(value);
    return read(bytes);
}

TEST(SyntheticIdentity, SpansOfSpansAndMeansOverRunsAreNotUsed) {
    EXPECT_EQ(average_with(42, 1).fields.size(), 1U);
    EXPECT_THAT(average_with(42, 2).skipped.at(0).reason, HasSubstr("over 2 time ranges is not used"));
    EXPECT_EQ(average_with(48, 3).fields.size(), 1U);
    EXPECT_THAT(average_with(48, 1).skipped.at(0).reason, HasSubstr("step type avgd is not used"));
}

TEST(SyntheticIdentity, AnUnusedUnitOfASpanIsSkipped) {
    EXPECT_THAT(average_with(49, 3).skipped.at(0).reason, HasSubstr("unit of time 3"));
}

TEST(SyntheticIdentity, AProductThatIsShorterThanItsTemplateIsAnError) {
    std::vector<std::byte> section(57);
    section[8] = std::byte{8};
    GribField field;
    field.product = section;
    EXPECT_FALSE(product_of(field));
    section.resize(58);
    field.product = section;
    EXPECT_TRUE(product_of(field));
}

TEST(SyntheticIdentity, MembersAreTold_ADeterministicRunHasNone) {
    EXPECT_EQ(field_of({}).member, std::nullopt);
    EXPECT_EQ(field_of({.member = 0}).member, 0);
    EXPECT_EQ(field_of({.member = 17}).member, 17);
}

TEST(SyntheticIdentity, TheSourceIsInWords) {
    EXPECT_EQ(read(message({}, some_cover)).source, "NCEP GFS");
    EXPECT_THAT(read(message({.process = 11}, some_cover)).source, HasSubstr("NCEP model 11"));
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
