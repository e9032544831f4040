#pragma once

#include <string>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/grid.hpp"
#include "weather/grib/handle.hpp"

namespace gloam::weather {

/// Unpacks the values, brings them into our order and unit and checks them: `field.values` and
/// `field.present`. `field` already knows its quantity, grid and origin. Returns how many cover values a
/// little outside 0..1 were clamped; error in words if the values cannot be unpacked or cannot be of this
/// quantity.
tl::expected<std::size_t, std::string> fill_values(Field& field, GribHandle& handle, const ScanOrder& order,
                                                   double to_our_unit);

}  // namespace gloam::weather
