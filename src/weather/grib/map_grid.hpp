#pragma once

#include <string>

#include "base/error.hpp"
#include "weather/grib/grid.hpp"

namespace gloam::weather {

/// The grids that are regular on a map: first point and steps in metres. Error in words if the header
/// describes no map, or the grid does not fit on it.
tl::expected<GribGrid, std::string> lambert_grid_of(const GribHandle& handle, const ScanOrder& order);
tl::expected<GribGrid, std::string> polar_grid_of(const GribHandle& handle, const ScanOrder& order);

}  // namespace gloam::weather
