#pragma once

#include <optional>
#include <string>
#include <variant>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/product.hpp"

namespace gloam::weather {

/// Times of a message, and how its values stand to them.
struct GribTimes {
    TimeKind kind = TimeKind::kInstant;
    Instant run_time;
    Instant from;  ///< equals `to` for an instant
    Instant to;
};

/// Whether steps are counted in a unit from minutes to days; otherwise the reason to skip the message. To be
/// asked before a handle is asked for anything else that may touch a step: the decoder looks other units up
/// beyond the end of its table.
std::optional<NotUsed> unused_time_unit(const GribHandle& handle);
std::optional<NotUsed> unused_time_unit_of_edition1(const GribField& field);

using TimesResult = tl::expected<std::variant<GribTimes, NotUsed>, std::string>;

/// Reads the times, steps to the minute. Error in words (the caller knows where) if a date or a step makes no
/// sense. Edition 1 has a way of its own to write a span for every centre: there the decoder is asked, after
/// unused_time_unit. Of an instant, and in edition 2, it is asked for nothing but the name of a span that is
/// not used.
TimesResult times_of_edition1(const GribField& field, GribHandle& handle);
TimesResult times_of_edition2(const GribField& field, const GribProduct& product, const GribHandle& handle);

}  // namespace gloam::weather
