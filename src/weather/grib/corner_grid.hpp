#pragma once

#include <string>

#include "base/error.hpp"
#include "weather/grib/grid.hpp"

namespace gloam::weather {

/// The grids whose header gives their first and last corner. A last corner that lies up to a cell and a half
/// from where the increments (or the rows of a Gaussian grid) put it makes a doubt; more is an error in
/// words.
tl::expected<GribGrid, std::string> regular_grid_of(const GribHandle& handle, const ScanOrder& order);
tl::expected<GribGrid, std::string> gaussian_grid_of(const GribHandle& handle, const ScanOrder& order);

}  // namespace gloam::weather
