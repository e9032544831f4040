#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// Points of the grid for which the data section holds a value, by the field's bitmap (all `points` without
/// one). Absent if the bitmap is shorter than the grid or of a predefined kind that no file can explain.
std::optional<std::size_t> points_with_value(const GribField& field, std::size_t points);

/// Spreads `values`, one for each point that has one by the field's bitmap, over all `points` of the grid;
/// `missing` elsewhere. The caller has held their number against points_with_value.
void spread_over_grid(const GribField& field, std::size_t points, double missing,
                      std::vector<double>& values);

}  // namespace gloam::weather
