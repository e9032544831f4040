#include "journal/event_rows.hpp"

#include <fmt/format.h>

#include "journal/trip_rows.hpp"

namespace gloam::journal {
namespace {

std::optional<std::int64_t> find(const Database& database, std::optional<std::int64_t> trip,
                                 const EventKey& event) {
    Statement row = database.query(
        "SELECT id FROM event WHERE ifnull(trip, 0) = ifnull(?, 0) AND place = ? AND date = ? AND kind = ?",
        trip, event.place, event.date, word_of(event.kind));
    return row.step() ? std::optional(row.next<std::int64_t>()) : std::nullopt;
}

}  // namespace

std::string_view word_of(astro::EventKind kind) {
    return kind == astro::EventKind::kDawn ? "dawn" : "dusk";
}

void need_words(std::string_view text, std::string_view what) {
    if (text.empty()) {
        throw Failure{
            {ErrorKind::kBadInput, fmt::format("there is no {}", what), "", "say it in a few words"}};
    }
}

std::optional<std::int64_t> trip_row_of(const Database& database, const EventKey& event) {
    return event.trip ? std::optional(needed_trip_row(database, *event.trip)) : std::nullopt;
}

std::optional<std::int64_t> event_row(const Database& database, const EventKey& event) {
    const auto trip = event.trip ? trip_row(database, *event.trip) : std::nullopt;
    return event.trip && !trip ? std::nullopt : find(database, trip, event);
}

std::int64_t make_event_row(Database& database, const EventKey& event) {
    need_words(event.place, "place");
    const auto trip = trip_row_of(database, event);
    const auto known = find(database, trip, event);
    return known ? *known
                 : database.change("INSERT INTO event (trip, place, date, kind) VALUES (?, ?, ?, ?)", trip,
                                   event.place, event.date, word_of(event.kind));
}

EventKey read_event(Statement& row) {
    EventKey event{row.next_if<std::string>(), row.next<std::string>(), row.next<CivilDate>(), {}};
    event.kind = row.next<std::string>() == "dawn" ? astro::EventKind::kDawn : astro::EventKind::kDusk;
    return event;
}

}  // namespace gloam::journal
