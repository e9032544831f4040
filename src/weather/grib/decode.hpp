#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>

#include "weather/field.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// A field out of a message, with what the forecast keeps once for all its fields.
struct DecodedField {
    Field field;
    std::string source;
    Instant run_time;
    std::size_t clamped_values = 0;
    std::size_t sentinel_values = 0;                  ///< numbers that stand for "no value", masked
    std::optional<std::string> doubt = std::nullopt;  ///< where the header contradicts itself a little
};

/// A field whose values nobody asked for.
struct NotWanted {
    FieldHeader header;
    std::string source;
    Instant run_time;
};

using Decoded = std::variant<DecodedField, NotUsed, NotWanted>;
using Wants = std::function<bool(const FieldHeader&)>;

/// Decodes one field if `wants` says so of its header, or says why it is not used. Error (kUnreadable) with
/// file, message and field if it is damaged.
Result<Decoded> decode(const GribField& grib, const Wants& wants);

}  // namespace gloam::weather
