#pragma once

#include <cstddef>

namespace gloam::weather {

/// How the values of a message run over its grid (GRIB flag table 3.4), and where they go in ours: from the
/// top down, left to right, which is north to south and west to east but on a map.
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

}  // namespace gloam::weather
