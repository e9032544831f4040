#pragma once

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/parameter.hpp"
#include "weather/grib/product.hpp"

namespace gloam::weather {

/// Where in the column a message of this parameter holds, by its fixed surfaces; the reason if it holds where
/// nothing is read from. One number stands for several things: cover is told apart by NCEP's level types
/// (low, middle, high, convective, boundary layer), by pairs of pressure surfaces (DWD's layers), or by the
/// parameter itself.
tl::expected<Level, NotUsed> level_of(const Surfaces& surfaces, const GribParameter& parameter);

}  // namespace gloam::weather
