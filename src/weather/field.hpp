#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "base/instant.hpp"
#include "weather/aerosol.hpp"
#include "weather/grid.hpp"
#include "weather/level.hpp"
#include "weather/quantity.hpp"

namespace gloam::weather {

/// How a value stands to its time span.
enum class TimeKind { kInstant, kAverage, kAccumulated, kMaximum, kMinimum };

/// Where a field came from, for messages to people.
struct FieldOrigin {
    std::string file;
    int message = 0;  ///< counted from 1; 0 before the first message
    int field = 1;    ///< within the message, counted from 1
};

/// Everything that a field says about itself, without its values.
struct FieldHeader {
    Quantity quantity = Quantity::kCloudCover;
    Level level;
    std::optional<AerosolKind> aerosol;  ///< for aerosol alone
    TimeKind time_kind = TimeKind::kInstant;
    Instant from;  ///< equals `to` for an instant
    Instant to;
    std::optional<int> member;  ///< absent: a single deterministic run
    Grid grid;
    FieldOrigin origin;
};

/// One horizontal field of one quantity at one level, time span and member.
struct Field : FieldHeader {
    std::vector<float> values;          ///< row-major; masked cells hold 0 and count for nothing
    std::vector<std::uint8_t> present;  ///< 1 where there is a value; empty: everywhere
};

/// Whether a cell holds a value; `cell` within the grid.
inline bool has_value(const Field& field, std::size_t cell) {
    return field.present.empty() || field.present[cell] != 0;
}

/// "file.grib2, message 3".
std::string to_text(const FieldOrigin& origin);

/// What a field holds, in words: "cloud cover at 500 hPa".
std::string name_of(const FieldHeader& field);

/// "1 field", "3 fields".
std::string fields_in_words(std::size_t count);

/// Bilinear value at a point, in the unit of the quantity; absent outside the grid or where a needed cell is
/// missing. Wraps round the Earth where the grid does; within a row of a pole that has no row the nearest row
/// holds.
std::optional<double> value_at(const Field& field, geo::LatLon point);

}  // namespace gloam::weather
