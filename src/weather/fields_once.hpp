#pragma once

#include <string>
#include <vector>

#include "weather/forecast.hpp"

namespace gloam::weather {

/// The fields of a forecast from which layers can be made, each once: of fields that agree in quantity,
/// level, time, member and grid the first is kept, and the repetition goes to `notes`. Refers to the
/// forecast's fields.
///
/// Fields agree within 0.01 of cover or humidity, 5 m of geopotential height and 100 Pa of pressure (starting
/// rule: coarser than packing, finer than forecasts tell). Error (kBadInput) if two that should be the same
/// are not, naming both messages and the largest difference.
Result<std::vector<const Field*>> fields_once(const Forecast& forecast, std::vector<std::string>& notes);

}  // namespace gloam::weather
