// Forecasts of MET Norway for one point: real answers, and a synthetic one for what they do not hold.
#include <gmock/gmock.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "base/text_table.hpp"
#include "weather/small_point_json.hpp"

namespace gloam::weather {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::string text_of(const std::string& path) {
    std::stringstream text;
    text << std::ifstream(GLOAM_SOURCE_DIR + path, std::ios::binary).rdbuf();
    return text.str();
}

const Forecast& london() {
    static const Forecast kForecast =
        read_point(text_of("/data/weather/metno-locationforecast-complete-51.5n-0.1w-20200720.json"));
    return kForecast;
}

const Forecast& beijing() {
    static const Forecast kForecast =
        read_point(text_of("/data/weather/metno-locationforecast-compact-39.9n-116.4e.json"));
    return kForecast;
}

Instant at(std::string_view time) {
    return parse_rfc3339(time).value();
}

/// The one field of that name that begins at that time; throws if there is none.
const Field& field_of(const Forecast& forecast, std::string_view name, Instant from) {
    const auto found = std::ranges::find_if(
        forecast.fields, [&](const Field& field) { return field.from == from && name_of(field) == name; });
    if (found == forecast.fields.end()) {
        throw std::out_of_range(std::string(name));
    }
    return *found;
}

auto count_of(const Forecast& forecast, std::string_view name) {
    return std::ranges::count_if(forecast.fields,
                                 [name](const Field& field) { return name_of(field) == name; });
}

std::vector<std::string> reasons(const Forecast& forecast) {
    std::vector<std::string> words;
    std::ranges::transform(forecast.skipped, std::back_inserter(words), &SkippedMessage::reason);
    return words;
}

TEST(PointJson, TellsItsSourceItsUpdateAndItsPlace) {
    EXPECT_EQ(london().source, "MET Norway Locationforecast 2.0");
    EXPECT_EQ(london().run_time, at("2020-07-20T01:30:57Z"));
    EXPECT_EQ(london().messages, 82U);
    const auto& grid = std::get<PointGrid>(london().fields.front().grid);
    EXPECT_EQ(grid.at.lat_deg, 51.5);
    EXPECT_EQ(grid.at.lon_deg, -0.1);
}

TEST(PointJson, ItsValuesAreThoseOfAnotherReader) {
    const TextTable table =
        parse_text_table(text_of("/tests/reference/weather/metno_london_20200720.csv"), ',', "csv").value();
    const auto values = table.numbers("value").value();
    ASSERT_EQ(values.size(), 30U);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const std::string& name = table.rows[i][table.column("field").value()];
        const Field& field = field_of(london(), name, at(table.rows[i][table.column("time").value()]));
        EXPECT_EQ(field.values.at(0), static_cast<float>(values[i])) << name;
    }
}

TEST(PointJson, EveryFieldIsOneColumn) {
    EXPECT_TRUE(std::ranges::all_of(london().fields, [](const Field& field) {
        return is_point(field.grid) && field.values.size() == 1 && field.present.empty() && !field.member;
    }));
}

TEST(PointJson, CompleteHasLayersAtEveryTime) {
    for (const char* layer : {"low", "middle", "high"}) {
        EXPECT_EQ(count_of(london(), std::string("cloud cover of ") + layer + " cloud"), 82) << layer;
    }
}

TEST(PointJson, CompactHasTheTotalAlone) {
    EXPECT_EQ(count_of(beijing(), "cloud cover of the whole atmosphere"), 82);
    EXPECT_TRUE(std::ranges::none_of(
        beijing().fields, [](const Field& field) { return field.level.kind == LevelKind::kCloudLayer; }));
}

TEST(PointJson, FogIsCoverAtTheSurfaceWhereItIsTold) {
    EXPECT_EQ(count_of(london(), "cloud cover at the surface"), 56);
}

TEST(PointJson, RainIsThatOfTheHourElseOfSix) {
    const Forecast forecast = read_point(kSmallPointJson);
    const Field& hour = field_of(forecast, "precipitation at the surface", at("2025-01-29T06:00:00Z"));
    EXPECT_EQ(hour.time_kind, TimeKind::kAccumulated);
    EXPECT_EQ(hour.to, at("2025-01-29T07:00:00Z"));
    EXPECT_EQ(hour.values.at(0), 0.4F);
    const Field& six = field_of(forecast, "precipitation at the surface", at("2025-01-29T07:00:00Z"));
    EXPECT_EQ(six.to, at("2025-01-29T13:00:00Z"));
    EXPECT_EQ(six.values.at(0), 2.5F);
    EXPECT_EQ(count_of(forecast, "precipitation at the surface"), 2);
}

TEST(PointJson, ThunderIsAChanceOverTheHour) {
    const Forecast forecast = read_point(kSmallPointJson);
    const Field& thunder =
        field_of(forecast, "probability of thunder at the surface", at("2025-01-29T06:00:00Z"));
    EXPECT_EQ(thunder.to, at("2025-01-29T07:00:00Z"));
    EXPECT_EQ(thunder.values.at(0), 0.025F);
}

TEST(PointJson, AWestWindBlowsTowardsTheEast) {
    const Forecast forecast = read_point(kSmallPointJson);
    const Instant six = at("2025-01-29T06:00:00Z");
    EXPECT_EQ(field_of(forecast, "wind towards the east 10 m above the ground", six).values.at(0), 4.0F);
    EXPECT_NEAR(field_of(forecast, "wind towards the north 10 m above the ground", six).values.at(0), 0.0,
                1e-6);
    EXPECT_EQ(field_of(forecast, "gust 10 m above the ground", six).values.at(0), 9.5F);
}

TEST(PointJson, SpeedWithoutDirectionIsNoWind) {
    const Forecast forecast = read_point(small_with(R"("wind_from_direction": 270.0, )", ""));
    EXPECT_EQ(count_of(forecast, "wind towards the east 10 m above the ground"), 0);
    EXPECT_THAT(reasons(forecast), ElementsAre("wind_speed is not used, here and at every other time"));
}

TEST(PointJson, WhatATimeDoesNotTellIsAbsent) {
    const Forecast forecast = read_point(kSmallPointJson);
    EXPECT_EQ(count_of(forecast, "temperature 2 m above the ground"), 1);
    EXPECT_EQ(count_of(forecast, "cloud cover of high cloud"), 0);
}

TEST(PointJson, FieldsNameTheirPlaceInTheSeries) {
    const Field last = read_point(kSmallPointJson).fields.back();
    EXPECT_EQ(to_text(last.origin), "point.json, message 2");
}

TEST(PointJson, WhatIsNotUsedIsSaidOnce) {
    EXPECT_THAT(reasons(london()),
                ElementsAre("air_pressure_at_sea_level is not used, here and at every other time",
                            "air_temperature_max is not used, here and at every other time",
                            "air_temperature_min is not used, here and at every other time",
                            "ultraviolet_index_clear_sky is not used, here and at every other time"));
    EXPECT_THAT(reasons(read_point(kSmallPointJson)), IsEmpty());
}

TEST(PointJson, CoverALittleBeyondFullIsClampedAndCounted) {
    const Forecast forecast = read_point(small_with("25.5", "100.6"));
    EXPECT_EQ(forecast.clamped_values, 1U);
    EXPECT_EQ(field_of(forecast, "cloud cover of low cloud", at("2025-01-29T06:00:00Z")).values.at(0), 1.0F);
}

TEST(PointJson, ATimeWithAnOffsetIsThatInstant) {
    const Forecast forecast = read_point(small_with("2025-01-29T06:00:00Z", "2025-01-29T07:30:00+01:00"));
    EXPECT_EQ(forecast.fields.front().from, at("2025-01-29T06:30:00Z"));
}

TEST(PointJson, AUnitOfWhatIsNotThereIsNoMatter) {
    EXPECT_EQ(read_point(small_with(R"("fog_area_fraction": "%")",
                                    R"("fog_area_fraction": "%", "dew_point_temperature": "K")"))
                  .fields.size(),
              read_point(kSmallPointJson).fields.size());
}

}  // namespace
}  // namespace gloam::weather
