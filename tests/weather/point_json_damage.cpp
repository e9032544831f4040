// Damaged, odd and foreign JSON: each is an error with the file, the place in it and a remedy.
#include <gmock/gmock.h>

#include <random>

#include "weather/point_json/parse.hpp"
#include "weather/small_point_json.hpp"

namespace gloam::weather {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

/// The error of a text that must be refused.
Error refusal(std::string_view text) {
    const auto forecast = read_point_json(text, "point.json");
    return forecast ? Error{ErrorKind::kInternal, "was read without an error", {}, {}} : forecast.error();
}

/// One change to the small forecast, and where and how it must be refused.
struct Damage {
    const char* name;
    const char* part;
    const char* by;
    const char* where;
    const char* message;
};

class PointJsonDamage : public ::testing::TestWithParam<Damage> {};

TEST_P(PointJsonDamage, IsRefusedWithItsPlace) {
    const Error error = refusal(small_with(GetParam().part, GetParam().by));
    EXPECT_EQ(error.kind, ErrorKind::kUnreadable) << to_text(error);
    EXPECT_EQ(error.where, std::string("point.json, ") + GetParam().where);
    EXPECT_THAT(error.message, HasSubstr(GetParam().message));
    EXPECT_THAT(error.hint, HasSubstr("fetch"));
}

INSTANTIATE_TEST_SUITE_P(
    , PointJsonDamage,
    ::testing::Values(
        Damage{"CoverOf140", "25.5", "140",
               "properties.timeseries[0].data.instant.details.cloud_area_fraction_low",
               "a cloud cover of 140 % is impossible"},
        Damage{"CoverBelowNothing", "25.5", "-20",
               "properties.timeseries[0].data.instant.details.cloud_area_fraction_low", "-20 %"},
        Damage{"HugeCover", "25.5", "1e308",
               "properties.timeseries[0].data.instant.details.cloud_area_fraction_low", "impossible"},
        Damage{"Null", "25.5", "null",
               "properties.timeseries[0].data.instant.details.cloud_area_fraction_low",
               "null stands where a number should"},
        Damage{"TextForANumber", "25.5", R"("25.5")",
               "properties.timeseries[0].data.instant.details.cloud_area_fraction_low",
               "string stands where a number should"},
        Damage{"NanAsText", "25.5", R"("NaN")",
               "properties.timeseries[0].data.instant.details.cloud_area_fraction_low", "a number should"},
        Damage{"TooCold", "-3.5", "-300", "properties.timeseries[0].data.instant.details.air_temperature",
               "a temperature of -26.85 K is impossible"},
        Damage{"NegativeWind", "4.0", "-4.0", "properties.timeseries[0].data.instant.details.wind_speed",
               "a wind of -4 m/s"},
        Damage{"WindOf400", "4.0", "400.0", "properties.timeseries[0].data.instant.details.wind_speed",
               "impossible"},
        Damage{"WindFromNowhere", "270.0", "999",
               "properties.timeseries[0].data.instant.details.wind_from_direction", "999 degrees"},
        Damage{"NegativeRain", "0.4", "-9999",
               "properties.timeseries[0].data.next_1_hours.details.precipitation_amount", "impossible"},
        Damage{"Kelvin", R"("celsius")", R"("K")", "properties.meta.units.air_temperature",
               "the unit is 'K' where 'celsius' is expected"},
        Damage{"Fraction", R"("cloud_area_fraction_low": "%")", R"("cloud_area_fraction_low": "1")",
               "properties.meta.units.cloud_area_fraction_low", "the unit is '1' where '%'"},
        Damage{"Knots", R"("wind_speed": "m/s")", R"("wind_speed": "kt")", "properties.meta.units.wind_speed",
               "'kt'"},
        Damage{"NoUnit", R"("air_temperature": "celsius", )", "", "properties.meta.units",
               "'air_temperature' is missing"},
        Damage{"UnitsOfNoObject", R"("units": {)", R"("units": 3, "x": {)", "properties.meta.units",
               "number stands where an object should"},
        Damage{"NoUpdate", "updated_at", "updated", "properties.meta", "'updated_at' is missing"},
        Damage{"OddUpdate", "2025-01-29T00:10:00Z", "yesterday", "properties.meta.updated_at", "yesterday"},
        Damage{"LocalTime", "2025-01-29T06:00:00Z", "2025-01-29T06:00", "properties.timeseries[0].time",
               "is not a time with offset"},
        Damage{"NoSuchDay", "2025-01-29T06:00:00Z", "2025-02-30T06:00:00Z", "properties.timeseries[0].time",
               "is not a time"},
        Damage{"SameTimeTwice", "T07:00:00Z", "T06:00:00Z", "properties.timeseries[1]",
               "not later than the time before"},
        Damage{"TimesThatFall", "T07:00:00Z", "T05:00:00Z", "properties.timeseries[1]",
               "2025-01-29T05:00:00Z is not later"},
        Damage{"NoTime", R"("time")", R"("Time")", "properties.timeseries[0]", "'time' is missing"},
        Damage{"NoData", R"("data")", R"("dates")", "properties.timeseries[0]", "'data' is missing"},
        Damage{"NoInstant", R"("instant")", R"("instance")", "properties.timeseries[0].data",
               "'instant' is missing"},
        Damage{"DetailsOfNoObject", R"("details": {"precipitation_amount": 3.0})", R"("details": [3.0])",
               "properties.timeseries[0].data.next_6_hours.details", "array stands where an object should"},
        Damage{"SeriesOfNoList", R"("timeseries": [)", R"("timeseries": 1, "x": [)", "properties.timeseries",
               "number stands where a list should"},
        Damage{"EmptySeries", R"("timeseries": [)", R"("timeseries": [], "x": [)", "properties.timeseries",
               "holds no time"},
        Damage{"NoPlace", "coordinates", "corners", "geometry", "'coordinates' is missing"},
        Damage{"HalfAPlace", "[10.5, 60.1, 200]", "[10.5]", "geometry.coordinates", "longitude and latitude"},
        Damage{"PlaceInWords", "60.1", R"("60.1 N")", "geometry.coordinates[1]", "a number should"},
        Damage{"BeyondThePole", "60.1", "91", "geometry.coordinates", "91"},
        Damage{"LongitudeOf1e300", "10.5", "1e300", "geometry.coordinates", "longitude"}),
    [](const auto& damage) { return std::string(damage.param.name); });

TEST(PointJsonHostile, ATextCutShortAnywhereIsAnError) {
    for (std::size_t length = 0; length < kSmallPointJson.size(); ++length) {
        const Error error = refusal(kSmallPointJson.substr(0, length));
        EXPECT_EQ(error.kind, ErrorKind::kUnreadable) << length;
        EXPECT_THAT(error.where, StartsWith("point.json, byte "));
    }
}

TEST(PointJsonHostile, NanAndNumbersBeyondADoubleAreNoJson) {
    EXPECT_EQ(refusal(small_with("25.5", "NaN")).message, "this is no sound JSON");
    EXPECT_EQ(refusal(small_with("25.5", "1e999")).message, "this is no sound JSON");
}

TEST(PointJsonHostile, ADeepTextIsRefused) {
    EXPECT_THAT(refusal(std::string(1'000'000, '[') + std::string(1'000'000, ']')).message,
                HasSubstr("16 levels deep"));
    EXPECT_THAT(refusal(small_with("25.5", std::string(20, '[') + std::string(20, ']'))).message,
                HasSubstr("16 levels deep"));
    EXPECT_EQ(refusal(std::string(1'000'000, '[')).message, "this is no sound JSON");
}

TEST(PointJsonHostile, ATextOfMoreThanTheMostIsRefused) {
    const std::string fits = kSmallPointJson + std::string(kMostJsonBytes - kSmallPointJson.size(), ' ');
    EXPECT_TRUE(read_point_json(fits, "point.json"));
    EXPECT_THAT(refusal(fits + ' ').message, HasSubstr("a JSON of 2097153 bytes"));
}

TEST(PointJsonHostile, AJsonOfAnotherKindIsUnsupported) {
    for (const char* text :
         {"{}", "[]", "3", "null", R"({"properties": 3})", R"({"properties": {"meta": {}}})",
          R"({"latitude": 51.2, "longitude": 3.2, "hourly": {"cloudcover_low": [1, 2]}})"}) {
        const Error error = refusal(text);
        EXPECT_EQ(error.kind, ErrorKind::kUnsupported) << text;
        EXPECT_THAT(error.message, HasSubstr("this JSON is no Locationforecast 2.0"));
        EXPECT_EQ(error.where, "point.json");
        EXPECT_FALSE(error.hint.empty());
    }
}

TEST(PointJsonHostile, ChangedBytesAreReadOrRefusedAndNeverMore) {
    std::mt19937 random(20);
    int refused = 0;
    for (int flip = 0; flip < 3000; ++flip) {
        std::string text = kSmallPointJson;
        text[random() % text.size()] = static_cast<char>(random() % 256);
        refused += read_point_json(text, "point.json") ? 0 : 1;
    }
    EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace gloam::weather
