#pragma once

#include <cstddef>
#include <optional>

#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// Points of the grid for which the data section holds a value, by the field's bitmap (all `points` without
/// one). Absent if the bitmap is shorter than the grid or of a predefined kind that no file can explain.
std::optional<std::size_t> points_with_value(const GribField& field, std::size_t points);

}  // namespace gloam::weather
