#include <fmt/format.h>

#include <cmath>

#include "journal/database.hpp"
#include "journal/event_rows.hpp"
#include "journal/journal.hpp"
#include "journal/names.hpp"
#include "journal/trip_rows.hpp"

namespace gloam::journal {
namespace {

Look look_of(std::string_view word) {
    return word == "evening" ? Look::kEvening : word == "morning" ? Look::kMorning : Look::kCall;
}

void need_call(const Database& database, std::int64_t id) {
    Statement row = database.query("SELECT 1 FROM call WHERE id = ?", id);
    if (!row.step()) {
        throw Failure{{ErrorKind::kNotFound, fmt::format("the journal has no call {}", id),
                       database.file().string(), "check the number"}};
    }
}

void check(const Database& database, const CallHead& head) {
    need_words(head.answer, "answer");
    if (!(head.odds >= 0.0 && head.odds <= 1.0)) {
        throw Failure{{ErrorKind::kBadInput, fmt::format("odds of {}", head.odds), head.event.place,
                       "odds are 0 to 1"}};
    }
    if (std::isnan(head.threshold)) {
        throw Failure{{ErrorKind::kBadInput, "a threshold that is no number", head.event.place, ""}};
    }
    if (head.previous) {
        need_call(database, *head.previous);
    }
}

void write_runs(Database& database, std::int64_t call, const CallRecord& record) {
    for (const RunSeen& run : record.runs) {
        need_words(run.sha256, "hash of a run");
        database.change(
            "INSERT INTO run (sha256, source, run_time_ms, seen_ms) VALUES (?, ?, ?, ?) ON CONFLICT DO "
            "NOTHING",
            run.sha256, run.source, run.run_time, record.head.made_at);
        database.change("INSERT INTO call_run SELECT ?, id FROM run WHERE sha256 = ? ON CONFLICT DO NOTHING",
                        call, run.sha256);
    }
}

std::int64_t write_call(Database& database, const CallRecord& record) {
    const CallHead& head = record.head;
    const std::int64_t event = make_event_row(database, head.event);
    const auto trip = trip_row_of(database, head.event);
    return database.change(
        "INSERT INTO call (event, look, made_ms, answer, odds, threshold, previous, inputs, model_version,"
        " tables_hash, states, output) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        event, name_of(head.look), head.made_at, head.answer, head.odds, head.threshold, head.previous,
        without_names(database, trip, record.inputs), record.model_version, record.tables_hash, record.states,
        without_names(database, trip, record.output));
}

constexpr std::string_view kHeadColumns =
    "trip.name, event.place, event.date, event.kind, call.look, call.made_ms, call.answer, call.odds,"
    " call.threshold, call.previous";
constexpr std::string_view kHeadTables =
    "call JOIN event ON call.event = event.id LEFT JOIN trip ON event.trip = trip.id";

CallHead read_head(Statement& row) {
    return {read_event(row),
            look_of(row.next<std::string>()),
            row.next<Instant>(),
            row.next<std::string>(),
            row.next<double>(),
            row.next<double>(),
            row.next_if<std::int64_t>()};
}

std::vector<RunSeen> read_runs(const Database& database, std::int64_t call) {
    std::vector<RunSeen> runs;
    Statement row = database.query(
        "SELECT sha256, source, run_time_ms FROM run JOIN call_run ON call_run.run = run.id WHERE call = ? "
        "ORDER BY run.id",
        call);
    while (row.step()) {
        runs.push_back({row.next<std::string>(), row.next<std::string>(), row.next<Instant>()});
    }
    return runs;
}

std::vector<Overrule> read_overrules(const Database& database, std::int64_t call) {
    std::vector<Overrule> overrules;
    Statement row =
        database.query("SELECT at_ms, answer, reason FROM overrule WHERE call = ? ORDER BY id", call);
    while (row.step()) {
        overrules.push_back(
            {row.next<Instant>(), row.next<std::string>(), with_names(database, row.next<std::string>())});
    }
    return overrules;
}

std::vector<Amendment> read_amendments(const Database& database, std::int64_t call) {
    std::vector<Amendment> amendments;
    Statement row = database.query("SELECT at_ms, text FROM amendment WHERE call = ? ORDER BY id", call);
    while (row.step()) {
        amendments.push_back({row.next<Instant>(), with_names(database, row.next<std::string>())});
    }
    return amendments;
}

std::optional<StoredCall> read_call(const Database& database, std::int64_t id) {
    Statement row = database.query(
        fmt::format("SELECT {}, call.inputs, call.model_version, call.tables_hash, call.states, call.output"
                    " FROM {} WHERE call.id = ?",
                    kHeadColumns, kHeadTables),
        id);
    if (!row.step()) {
        return std::nullopt;
    }
    StoredCall call;
    call.id = id;
    call.record.head = read_head(row);
    call.record.runs = read_runs(database, id);
    call.record.inputs = with_names(database, row.next<std::string>());
    call.record.model_version = row.next<std::string>();
    call.record.tables_hash = row.next<std::string>();
    call.record.states = row.next<std::vector<std::byte>>();
    call.record.output = with_names(database, row.next<std::string>());
    call.overrules = read_overrules(database, id);
    call.amendments = read_amendments(database, id);
    return call;
}

/// The row of the trip that a call belongs to, if it does to one.
std::optional<std::int64_t> trip_of_call(const Database& database, std::int64_t id) {
    need_call(database, id);
    Statement row =
        database.query("SELECT trip FROM call JOIN event ON call.event = event.id WHERE call.id = ?", id);
    row.step();
    return row.next_if<std::int64_t>();
}

}  // namespace

std::string_view name_of(Look look) {
    switch (look) {
        case Look::kEvening:
            return "evening";
        case Look::kMorning:
            return "morning";
        case Look::kCall:
            break;
    }
    return "call";
}

Result<std::int64_t> record_call(Journal& journal, const CallRecord& record) {
    return guarded([&] {
        Database& database = journal.database();
        Transaction transaction(database);
        check(database, record.head);
        const std::int64_t id = write_call(database, record);
        write_runs(database, id, record);
        transaction.commit();
        return id;
    });
}

Result<std::optional<StoredCall>> find_call(const Journal& journal, std::int64_t id) {
    return guarded([&] {
        const Transaction reading(journal.database(), Transaction::Intent::kRead);
        return read_call(journal.database(), id);
    });
}

Result<std::optional<StoredCall>> last_call(const Journal& journal, const EventKey& event) {
    return guarded([&]() -> std::optional<StoredCall> {
        const Transaction reading(journal.database(), Transaction::Intent::kRead);
        Statement row = journal.database().query(
            "SELECT id FROM call WHERE event = ? ORDER BY made_ms DESC, id DESC LIMIT 1",
            event_row(journal.database(), event));
        return row.step() ? read_call(journal.database(), row.next<std::int64_t>()) : std::nullopt;
    });
}

Result<std::optional<StoredCall>> newest_call(const Journal& journal) {
    return guarded([&]() -> std::optional<StoredCall> {
        Statement row = journal.database().query("SELECT id FROM call ORDER BY id DESC LIMIT 1");
        return row.step() ? read_call(journal.database(), row.next<std::int64_t>()) : std::nullopt;
    });
}

Result<std::vector<CallLine>> calls_of(const Journal& journal, std::string_view trip) {
    return guarded([&] {
        const Transaction reading(journal.database(), Transaction::Intent::kRead);
        const Database& database = journal.database();
        std::vector<CallLine> lines;
        Statement row = database.query(
            fmt::format("SELECT call.id, {} FROM {} WHERE event.trip = ? ORDER BY made_ms, call.id",
                        kHeadColumns, kHeadTables),
            trip_row(database, trip));
        while (row.step()) {
            const auto id = row.next<std::int64_t>();
            lines.push_back({id, read_head(row), read_overrules(database, id)});
        }
        return lines;
    });
}

Result<void> record_overrule(Journal& journal, std::int64_t call, const Overrule& overrule) {
    return guarded([&] {
        Database& database = journal.database();
        Transaction transaction(database);
        need_words(overrule.answer, "answer");
        need_words(overrule.reason, "reason");
        database.change("INSERT INTO overrule (call, at_ms, answer, reason) VALUES (?, ?, ?, ?)", call,
                        overrule.at, overrule.answer,
                        without_names(database, trip_of_call(database, call), overrule.reason));
        transaction.commit();
    });
}

Result<void> amend_call(Journal& journal, std::int64_t call, const Amendment& amendment) {
    return guarded([&] {
        Database& database = journal.database();
        Transaction transaction(database);
        need_words(amendment.text, "text");
        database.change("INSERT INTO amendment (call, at_ms, text) VALUES (?, ?, ?)", call, amendment.at,
                        without_names(database, trip_of_call(database, call), amendment.text));
        transaction.commit();
    });
}

}  // namespace gloam::journal
