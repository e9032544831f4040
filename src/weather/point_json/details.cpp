#include "weather/point_json/details.hpp"

#include <algorithm>
#include <array>
#include <chrono>

namespace gloam::weather {
namespace {

constexpr double kPercent = 0.01;
constexpr double kFreezing_k = 273.15;
constexpr Level kWhole{.kind = LevelKind::kWholeAtmosphere};
constexpr Level kSurface{.kind = LevelKind::kSurface};
constexpr Level kAt2m{.kind = LevelKind::kAboveGround, .height_m = 2.0};

constexpr Level layer(Band band) {
    return {.kind = LevelKind::kCloudLayer, .band = band};
}

constexpr PointDetail now(std::string_view key, std::string_view unit, Quantity quantity, Level level,
                          double factor = 1.0, double offset = 0.0) {
    return {"instant", key, unit, quantity, level, TimeKind::kInstant, Duration(0), factor, offset};
}

constexpr PointDetail over(std::string_view part, int hours, std::string_view key, std::string_view unit,
                           Quantity quantity, double factor = 1.0) {
    return {part, key, unit, quantity, kSurface, TimeKind::kAccumulated, std::chrono::hours(hours), factor};
}

// The keys as MET Norway's page "General forecast JSON format" shows them (developer.yr.no/doc/ForecastJSON);
// the heights of 2 and 10 m are from memory of its data model. Fog is cloud that touches the ground. A chance
// of thunder is that of any within the hour, so it belongs to the hour as a whole, as an amount of rain does.
constexpr std::array kDetails{
    now("cloud_area_fraction", "%", Quantity::kCloudCover, kWhole, kPercent),
    now("cloud_area_fraction_low", "%", Quantity::kCloudCover, layer(Band::kLow), kPercent),
    now("cloud_area_fraction_medium", "%", Quantity::kCloudCover, layer(Band::kMiddle), kPercent),
    now("cloud_area_fraction_high", "%", Quantity::kCloudCover, layer(Band::kHigh), kPercent),
    now("fog_area_fraction", "%", Quantity::kCloudCover, kSurface, kPercent),
    now("relative_humidity", "%", Quantity::kRelativeHumidity, kAt2m, kPercent),
    now("air_temperature", "celsius", Quantity::kTemperature, kAt2m, 1.0, kFreezing_k),
    now("dew_point_temperature", "celsius", Quantity::kDewPoint, kAt2m, 1.0, kFreezing_k),
    now("wind_speed_of_gust", "m/s", Quantity::kGust, kAt10m),
    over("next_1_hours", 1, "precipitation_amount", "mm", Quantity::kPrecipitation),
    over("next_6_hours", 6, "precipitation_amount", "mm", Quantity::kPrecipitation),
    over("next_1_hours", 1, "probability_of_thunder", "%", Quantity::kThunder, kPercent),
};

}  // namespace

const PointDetail* point_detail(std::string_view part, std::string_view key) {
    const auto* const found = std::ranges::find_if(
        kDetails, [&](const PointDetail& detail) { return detail.part == part && detail.key == key; });
    return found == kDetails.end() ? nullptr : found;
}

}  // namespace gloam::weather
