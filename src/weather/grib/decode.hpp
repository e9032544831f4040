#pragma once

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
    std::optional<std::string> doubt = std::nullopt;  ///< where the header contradicts itself a little
};

/// Decodes one field, or says why it is not used. Error (kUnreadable) with file, message and field if it is
/// damaged.
Result<std::variant<DecodedField, NotUsed>> decode(const GribField& grib);

}  // namespace gloam::weather
