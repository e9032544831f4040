#pragma once

#include <string>
#include <variant>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/not_used.hpp"

namespace gloam::weather {

/// How the values of a message run over its grid (GRIB flag table 3.4), and where they go in ours: north to
/// south, west to east.
struct ScanOrder {
    bool westward = false;        ///< a row runs from east to west
    bool northward = false;       ///< rows run from south to north
    bool by_column = false;       ///< consecutive values run along a column
    bool back_and_forth = false;  ///< every second row (or column) runs the other way
    std::size_t rows = 0;
    std::size_t columns = 0;

    /// Place in the message of the value at `row` from the north and `column` from the west.
    std::size_t place_of(std::size_t row, std::size_t column) const;
};

/// The grid of a message as Gloam stores it, and the way its values run.
struct GribGrid {
    RegularGrid grid;
    ScanOrder order;
};

/// Largest number of points a field may have: a global grid of 0.05 degrees has half as many.
inline constexpr std::size_t kMostPoints = 50'000'000;

/// Reads the grid. Error in words (the caller knows where) if the header contradicts itself or claims more
/// than kMostPoints.
tl::expected<std::variant<GribGrid, NotUsed>, std::string> grid_of(const GribHandle& handle);

}  // namespace gloam::weather
