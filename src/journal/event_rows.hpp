#pragma once

#include "journal/database.hpp"
#include "journal/journal.hpp"

namespace gloam::journal {

/// The row of an event, absent if nothing was recorded of it; a trip that is not in the journal has none.
std::optional<std::int64_t> event_row(const Database& database, const EventKey& event);

/// The row of an event, made if it is not there. Failures: kNotFound, no such trip; kBadInput, no place.
std::int64_t make_event_row(Database& database, const EventKey& event);

/// The row of the event's trip, absent if it has none.
std::optional<std::int64_t> trip_row_of(const Database& database, const EventKey& event);

/// Throws a Failure (kBadInput) if a text is empty.
void need_words(std::string_view text, std::string_view what);

/// "dawn" or "dusk".
std::string_view word_of(astro::EventKind kind);

/// The event of four columns: the trip's name, place, date and kind.
EventKey read_event(Statement& row);

}  // namespace gloam::journal
