#pragma once

#include <optional>
#include <string>
#include <variant>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/scan_order.hpp"

namespace gloam::weather {

/// The grid of a message as Gloam stores it, and the way its values run.
struct GribGrid {
    Grid grid;
    ScanOrder order;
    std::optional<std::string> doubt = std::nullopt;  ///< where the header contradicts itself a little
};

/// Largest number of points a field may have: a global grid of 0.05 degrees has half as many.
inline constexpr std::size_t kMostPoints = 50'000'000;

/// Reads the grid: regular in latitude and longitude, regular Gaussian, Lambert or polar stereographic. Error
/// in words (the caller knows where) if the header contradicts itself grossly or claims more than
/// kMostPoints.
tl::expected<std::variant<GribGrid, NotUsed>, std::string> grid_of(const GribHandle& handle);

}  // namespace gloam::weather
