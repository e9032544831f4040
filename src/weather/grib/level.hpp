#pragma once

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/parameter.hpp"

namespace gloam::weather {

/// Where in the column a message of this parameter holds. Single pressure levels of 1 to 1100 hPa, and for
/// cover the whole atmosphere, convective cloud and the boundary layer; other levels and layers are not used.
tl::expected<Level, NotUsed> level_of(const GribHandle& handle, int edition, const GribParameter& parameter);

}  // namespace gloam::weather
