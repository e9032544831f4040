#pragma once

#include <optional>
#include <string>
#include <variant>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/level.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/parameter.hpp"
#include "weather/grib/time.hpp"

namespace gloam::weather {

/// What a message holds: quantity, level, times and member, and who made it.
struct GribIdentity {
    GribParameter parameter;
    Level level;
    std::optional<AerosolKind> aerosol;
    GribTimes times;
    std::optional<int> member;
    std::string source;  ///< producing centre and model in words
};

/// Reads what a message holds. Error in words (the caller knows where) if a date or a step makes no sense.
tl::expected<std::variant<GribIdentity, NotUsed>, std::string> identity_of(GribHandle& handle, int edition);

}  // namespace gloam::weather
