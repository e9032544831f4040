#include <fmt/format.h>

#include "journal/database.hpp"
#include "journal/journal.hpp"
#include "journal/names.hpp"
#include "journal/trip_rows.hpp"

namespace gloam::journal {
namespace {

/// Trips other than `row` that share a day with it; one without both days shares none.
std::vector<std::string> overlapping(const Database& database, std::int64_t row) {
    std::vector<std::string> names;
    Statement other = database.query(
        "SELECT other.name FROM trip, trip AS other WHERE trip.id = ? AND other.id <> trip.id"
        " AND other.first_day <= trip.last_day AND trip.first_day <= other.last_day ORDER BY other.name",
        row);
    while (other.step()) {
        names.push_back(other.next<std::string>());
    }
    return names;
}

}  // namespace

Result<std::vector<std::string>> store_trip(Journal& journal, const trip::Trip& trip) {
    if (!trip.group.guests.empty() && !trip.end) {
        return fail(ErrorKind::kBadInput, "the trip names guests but no end, after which to forget them",
                    trip.name, "add end = ... to [trip], or leave the guests out");
    }
    return guarded([&] {
        Database& database = journal.database();
        Transaction transaction(database);
        const std::int64_t row = write_trip(database, trip_row(database, trip.name), trip);
        auto others = overlapping(database, row);
        transaction.commit();
        return others;
    });
}

Result<std::optional<trip::Trip>> find_trip(const Journal& journal, std::string_view name) {
    return guarded([&] {
        const Transaction reading(journal.database(), Transaction::Intent::kRead);
        const auto row = trip_row(journal.database(), name);
        return row ? std::optional(read_trip(journal.database(), *row)) : std::nullopt;
    });
}

Result<std::vector<TripLine>> list_trips(const Journal& journal) {
    return guarded([&] {
        std::vector<TripLine> lines;
        Statement row = journal.database().query(
            "SELECT name, first_day, last_day,"
            " (SELECT count(*) FROM place WHERE place.trip = trip.id AND NOT is_base),"
            " (SELECT count(*) FROM call JOIN event ON call.event = event.id WHERE event.trip = trip.id),"
            " forgotten_ms FROM trip ORDER BY first_day IS NULL, first_day, name");
        while (row.step()) {
            lines.push_back({row.next<std::string>(), row.next_if<CivilDate>(), row.next_if<CivilDate>(),
                             row.next<std::int64_t>(), row.next<std::int64_t>(), row.next_if<Instant>()});
        }
        return lines;
    });
}

Result<bool> forget_people(Journal& journal, std::string_view trip, Instant now) {
    return guarded([&] {
        const auto row = trip_row(journal.database(), trip);
        if (row) {
            forget(journal.database(), *row, now);
        }
        return row.has_value();
    });
}

}  // namespace gloam::journal
