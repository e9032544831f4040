#pragma once

#include <optional>
#include <string>
#include <variant>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib_grid.hpp"
#include "weather/grib_handle.hpp"

namespace gloam::weather {

/// What a message holds: quantity, level, time span and member, and how its numbers become our units.
struct GribIdentity {
    Quantity quantity = Quantity::kCloudCover;
    double to_our_unit = 1.0;  ///< factor from the file's unit to ours
    Level level;
    TimeKind time_kind = TimeKind::kInstant;
    Instant run_time;
    Instant from;
    Instant to;
    std::optional<int> member;
    std::string source;  ///< producing centre and model in words
};

/// Reads what a message holds, by numbers rather than names, for one short name stands for several things.
/// Error in words (the caller knows where) if a date or a step makes no sense.
tl::expected<std::variant<GribIdentity, NotUsed>, std::string> identity_of(const GribHandle& handle,
                                                                           int edition);

}  // namespace gloam::weather
