#pragma once

#include <optional>
#include <string>
#include <variant>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/not_used.hpp"

namespace gloam::weather {

/// Times of a message, and how its values stand to them.
struct GribTimes {
    TimeKind kind = TimeKind::kInstant;
    Instant run_time;
    Instant from;  ///< equals `to` for an instant
    Instant to;
};

/// Whether steps are counted in a unit from minutes to days; otherwise the reason to skip the message. To be
/// asked before anything else that may touch a step: the decoder looks other units up beyond the end of its
/// table.
std::optional<NotUsed> unused_time_unit(const GribHandle& handle);

/// Reads the times, steps to the minute. Error in words (the caller knows where) if a date or a step makes no
/// sense.
tl::expected<std::variant<GribTimes, NotUsed>, std::string> times_of(GribHandle& handle);

}  // namespace gloam::weather
