#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// Points of the grid for which the data section holds a value, by the field's bitmap (all `points` without
/// one). Absent if the bitmap is shorter than the grid or of a predefined kind that no file can explain.
std::optional<std::size_t> points_with_value(const GribField& field, std::size_t points);

/// The values of an edition 2 field, one for each point that has one by its bitmap, spread over all `points`
/// of the grid; `missing` elsewhere. The caller has held their number against points_with_value.
std::vector<double> spread_over_grid(const GribField& field, std::span<const double> values,
                                     std::size_t points, double missing);

}  // namespace gloam::weather
