#include "journal/database.hpp"
#include "journal/event_rows.hpp"
#include "journal/journal.hpp"
#include "journal/names.hpp"
#include "journal/trip_rows.hpp"

namespace gloam::journal {
namespace {

/// Runs a change that belongs to an event, which is made if it is not there.
template <class Change>
Result<void> record(Journal& journal, const EventKey& event, Change change) {
    return guarded([&] {
        Database& database = journal.database();
        Transaction transaction(database);
        change(database, make_event_row(database, event));
        transaction.commit();
    });
}

/// Reads all rows of a statement that has an event as its parameter.
template <class Read>
auto all_of(const Journal& journal, const EventKey& event, std::string_view sql, Read read) {
    return guarded([&] {
        std::vector<decltype(read(std::declval<Statement&>()))> all;
        Statement row = journal.database().query(sql, event_row(journal.database(), event));
        while (row.step()) {
            all.push_back(read(row));
        }
        return all;
    });
}

}  // namespace

Result<void> record_sighting(Journal& journal, const EventKey& event, const Sighting& sighting) {
    return record(journal, event, [&](Database& database, std::int64_t row) {
        need_words(sighting.sign, "sign");
        if (!(sighting.likelihood_ratio > 0.0)) {
            throw Failure{{ErrorKind::kBadInput, "a likelihood ratio is not above zero", sighting.sign, ""}};
        }
        database.change("INSERT INTO sighting (event, at_ms, sign, likelihood_ratio) VALUES (?, ?, ?, ?)",
                        row, sighting.at, sighting.sign, sighting.likelihood_ratio);
    });
}

Result<void> record_dismissal(Journal& journal, const EventKey& event, const Dismissal& dismissal) {
    return record(journal, event, [&](Database& database, std::int64_t row) {
        need_words(dismissal.caution, "caution");
        need_words(dismissal.reason, "reason");
        const auto trip = trip_row_of(database, event);
        database.change("INSERT INTO dismissal (event, at_ms, caution, reason) VALUES (?, ?, ?, ?)", row,
                        dismissal.at, without_names(database, trip, dismissal.caution),
                        without_names(database, trip, dismissal.reason));
    });
}

Result<std::vector<Sighting>> sightings_of(const Journal& journal, const EventKey& event) {
    return all_of(journal, event,
                  "SELECT at_ms, sign, likelihood_ratio FROM sighting WHERE event = ? ORDER BY id",
                  [](Statement& row) {
                      return Sighting{row.next<Instant>(), row.next<std::string>(), row.next<double>()};
                  });
}

Result<std::vector<Dismissal>> dismissals_of(const Journal& journal, const EventKey& event) {
    return all_of(journal, event, "SELECT at_ms, caution, reason FROM dismissal WHERE event = ? ORDER BY id",
                  [&](Statement& row) {
                      return Dismissal{row.next<Instant>(),
                                       with_names(journal.database(), row.next<std::string>()),
                                       with_names(journal.database(), row.next<std::string>())};
                  });
}

}  // namespace gloam::journal
