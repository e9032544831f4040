#pragma once

#include <optional>
#include <string>

#include "journal/database.hpp"

namespace gloam::journal {

/// The text with marks in place of the names of a trip's guests, whole words only: what is kept of a call
/// holds no name. `trip` is a row; absent: no guests.
std::string without_names(const Database& database, std::optional<std::int64_t> trip, std::string text);

/// The text with the names back where the marks are; a guest who is forgotten reads "guest 12".
std::string with_names(const Database& database, std::string text);

/// Deletes the guests of a trip and who holds its plan, and copies beside the journal that may hold them.
void forget(Database& database, std::int64_t trip, Instant now);

/// Does so for every trip whose last day, by UTC, ended more than a day before `now`.
void forget_after_trips(Database& database, Instant now);

}  // namespace gloam::journal
