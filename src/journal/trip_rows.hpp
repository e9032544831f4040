#pragma once

#include "journal/database.hpp"

namespace gloam::journal {

/// The row of a trip, absent if there is no trip of that name.
std::optional<std::int64_t> trip_row(const Database& database, std::string_view name);

/// The row of a trip that must be there; else a Failure (kNotFound).
std::int64_t needed_trip_row(const Database& database, std::string_view name);

/// Writes a trip with all that belongs to it, in place of what `row` held of it; absent: a new one. Guests
/// keep their numbers. Returns the row.
std::int64_t write_trip(Database& database, std::optional<std::int64_t> row, const trip::Trip& trip);

/// The trip of a row, which must be there.
trip::Trip read_trip(const Database& database, std::int64_t row);

}  // namespace gloam::journal
