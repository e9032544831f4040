#pragma once

#include <map>
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

/// Centres in words, by edition and number.
using CentreNames = std::map<std::pair<int, long>, std::string>;

/// Reads what a message holds. The handle is asked for as little as can be: times in edition 1, names; those
/// of centres are kept in `centres`. Error in words (the caller knows where) if the header is too short or a
/// date or a step makes no sense.
tl::expected<std::variant<GribIdentity, NotUsed>, std::string> identity_of(const GribField& field,
                                                                           GribHandle& handle,
                                                                           CentreNames& centres);

}  // namespace gloam::weather
