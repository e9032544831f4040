#include "weather/grib/scan_order.hpp"

namespace gloam::weather {

std::size_t ScanOrder::place_of(std::size_t row, std::size_t column) const {
    const std::size_t i = westward ? columns - 1 - column : column;
    const std::size_t j = northward ? rows - 1 - row : row;
    const std::size_t line = by_column ? i : j;
    const std::size_t length = by_column ? rows : columns;
    const std::size_t along = by_column ? j : i;
    const bool reversed = back_and_forth && line % 2 == 1;
    return line * length + (reversed ? length - 1 - along : along);
}

}  // namespace gloam::weather
