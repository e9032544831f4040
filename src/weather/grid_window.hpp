#pragma once

#include <cstddef>
#include <optional>

#include "weather/grid.hpp"

namespace gloam::weather {

/// A rectangle of cells of a grid. Its columns may run over the seam of a grid that goes round the Earth.
struct GridWindow {
    std::size_t first_row = 0;
    std::size_t rows = 0;
    std::size_t first_column = 0;
    std::size_t columns = 0;
};

/// The cells that any value within `radius_m` metres (at least 0) of `centre` on the grid may need. Every
/// column where the circle holds a pole, reaches past the outermost row of a grid round the Earth, or meets
/// the grid from both sides; the whole grid where its map has a cut or a pole in the circle. Absent where the
/// grid has no value at the centre. The grid must have two rows and columns at least, or be a point.
std::optional<GridWindow> window_round(const Grid& grid, geo::LatLon centre, double radius_m);

/// The grid of the window alone; the same grid for a window that is the whole of it. What is read on it
/// agrees with what is read on the whole but for the last digits, for its corner is another.
Grid cropped(const Grid& grid, const GridWindow& window);

/// Cell of `whole` behind a cell of the window: what stood there now stands here.
std::size_t cell_of_whole(const Grid& whole, const GridWindow& window, std::size_t cell);

}  // namespace gloam::weather
