#pragma once

#include <string_view>

#include "weather/forecast.hpp"

namespace gloam::weather {

/// Reads an answer of MET Norway's Locationforecast 2.0 (GeoJSON, "compact" or "complete"); `name` stands for
/// the file in errors. Every time of the series gives fields on a grid of one column, with the time's place
/// in the series, counted from 1, as the message; the run time is that of the last update (meta.updated_at),
/// so the first times may lie before it. What a time does not tell is absent. `skipped` names each detail
/// that is not used once. Fog is cover at the surface, wind is at 10 m, precipitation is that of the next
/// hour, else of the next six. Errors name the file and the place in it: kUnsupported for a JSON of another
/// kind, kUnreadable for damage: a unit other than the expected one, a value that cannot be, times that do
/// not rise, a text that `parse_json` refuses. *Source:* developer.yr.no/doc/ForecastJSON.
Result<Forecast> read_point_json(std::string_view text, std::string_view name);

}  // namespace gloam::weather
