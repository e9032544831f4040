#pragma once

#include <optional>
#include <string>
#include <variant>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib_handle.hpp"
#include "weather/grib_level.hpp"
#include "weather/grib_parameter.hpp"
#include "weather/grib_time.hpp"
#include "weather/not_used.hpp"

namespace gloam::weather {

/// What a message holds: quantity, level, times and member, and who made it.
struct GribIdentity {
    GribParameter parameter;
    Level level;
    GribTimes times;
    std::optional<int> member;
    std::string source;  ///< producing centre and model in words
};

/// Reads what a message holds. Error in words (the caller knows where) if a date or a step makes no sense.
tl::expected<std::variant<GribIdentity, NotUsed>, std::string> identity_of(GribHandle& handle, int edition);

}  // namespace gloam::weather
