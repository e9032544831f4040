#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "weather/point_json/read.hpp"

namespace gloam::weather {

/// A synthetic Locationforecast of two times. Not MET Norway's data.
inline const std::string kSmallPointJson = R"({"type": "Feature",
"geometry": {"type": "Point", "coordinates": [10.5, 60.1, 200]},
"properties": {"meta": {"updated_at": "2025-01-29T00:10:00Z", "units": {
  "air_temperature": "celsius", "cloud_area_fraction": "%", "cloud_area_fraction_low": "%",
  "fog_area_fraction": "%", "precipitation_amount": "mm", "probability_of_thunder": "%",
  "wind_from_direction": "degrees", "wind_speed": "m/s", "wind_speed_of_gust": "m/s"}},
"timeseries": [
 {"time": "2025-01-29T06:00:00Z", "data": {
  "instant": {"details": {"air_temperature": -3.5, "cloud_area_fraction": 80, "cloud_area_fraction_low": 25.5,
   "fog_area_fraction": 10.0, "wind_from_direction": 270.0, "wind_speed": 4.0, "wind_speed_of_gust": 9.5}},
  "next_1_hours": {"summary": {"symbol_code": "snow"},
   "details": {"precipitation_amount": 0.4, "probability_of_thunder": 2.5}},
  "next_6_hours": {"details": {"precipitation_amount": 3.0}}}},
 {"time": "2025-01-29T07:00:00Z", "data": {
  "instant": {"details": {"cloud_area_fraction": 70.0}},
  "next_6_hours": {"details": {"precipitation_amount": 2.5}}}}]}})";

/// The small forecast with the first `part` of its text replaced.
inline std::string small_with(std::string_view part, std::string_view by) {
    std::string text = kSmallPointJson;
    const auto at = text.find(part);
    if (at == std::string::npos) {
        throw std::logic_error("not in the small forecast: " + std::string(part));
    }
    return text.replace(at, part.size(), by);
}

/// Reads a text that must be good.
inline Forecast read_point(std::string_view text) {
    auto forecast = read_point_json(text, "point.json");
    if (!forecast) {
        throw std::runtime_error(to_text(forecast.error()));
    }
    return *std::move(forecast);
}

}  // namespace gloam::weather
