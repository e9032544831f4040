#pragma once

#include <array>
#include <cstddef>
#include <optional>

#include "weather/field.hpp"

namespace gloam::weather {

/// The four cells round a point and their bilinear weights, which add up to 1. A cell of weight 0 counts for
/// nothing.
struct CellWeights {
    std::array<std::size_t, 4> cell{};
    std::array<double, 4> weight{};
};

/// Weights at a point; absent outside the grid. A grid that goes round the Earth wraps, and its outermost
/// rows hold up to a pole less than a row away. The grid must have two rows and columns at least.
std::optional<CellWeights> weights_at(const RegularGrid& grid, geo::LatLon point);

}  // namespace gloam::weather
