#include "journal/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>
#include <vector>

#include "journal/migration.hpp"

namespace gloam::journal {
namespace {

/// Stands on both sides of a guest's number. A control character: neither typed nor printed.
constexpr char kMark = '\x1a';

std::string mark_of(std::int64_t guest) {
    return fmt::format("{0}{1}{0}", kMark, guest);
}

/// Letters of any script count as such: bytes past ASCII belong to some.
bool is_of_a_word(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80 || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

bool stands_alone(std::string_view text, std::size_t at, std::size_t size) {
    return (at == 0 || !is_of_a_word(text[at - 1])) &&
           (at + size == text.size() || !is_of_a_word(text[at + size]));
}

void replace_words(std::string& text, std::string_view word, std::string_view other) {
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at)) {
        if (stands_alone(text, at, word.size())) {
            text.replace(at, word.size(), other);
            at += other.size();
        } else {
            ++at;
        }
    }
}

std::string name_of_guest(const Database& database, std::int64_t guest) {
    Statement row = database.query("SELECT name FROM guest WHERE id = ?", guest);
    return row.step() ? row.next<std::string>() : fmt::format("guest {}", guest);
}

void delete_copies(const Database& database) {
    for (int version = 1; version <= static_cast<int>(own_migrations().size()); ++version) {
        std::error_code ignored;
        std::filesystem::remove(backup_of(database.file(), version), ignored);
    }
}

}  // namespace

std::string without_names(const Database& database, std::optional<std::int64_t> trip, std::string text) {
    // The longest first: one name may hold another.
    Statement row =
        database.query("SELECT id, name FROM guest WHERE trip = ? ORDER BY length(name) DESC, id", trip);
    while (row.step()) {
        const auto guest = row.next<std::int64_t>();
        replace_words(text, row.next<std::string>(), mark_of(guest));
    }
    return text;
}

std::string with_names(const Database& database, std::string text) {
    for (std::size_t at = text.find(kMark); at != std::string::npos; at = text.find(kMark, at)) {
        const std::size_t end = text.find(kMark, at + 1);
        std::int64_t guest = 0;
        const char* const last = text.data() + std::min(end, text.size());
        const auto parsed = std::from_chars(text.data() + at + 1, last, guest);
        if (end == std::string::npos || parsed.ec != std::errc() || parsed.ptr != last) {
            ++at;
            continue;
        }
        const std::string name = name_of_guest(database, guest);
        text.replace(at, end + 1 - at, name);
        at += name.size();
    }
    return text;
}

void forget(Database& database, std::int64_t trip, Instant now) {
    Transaction transaction(database);
    database.change("DELETE FROM guest WHERE trip = ?", trip);
    database.change("UPDATE trip SET plan_holder = NULL, forgotten_ms = ? WHERE id = ?", now, trip);
    transaction.commit();
    delete_copies(database);
    // What was overwritten is still in the log until it is emptied; another reader may put that off.
    Statement emptied = database.query("PRAGMA wal_checkpoint(TRUNCATE)");
    emptied.step();
}

void forget_after_trips(Database& database, Instant now) {
    const CivilDate yesterday = std::chrono::floor<std::chrono::days>(now) - std::chrono::days(1);
    std::vector<std::int64_t> ended;
    Statement row = database.query(
        "SELECT id FROM trip WHERE last_day < ? AND (plan_holder IS NOT NULL OR id IN (SELECT trip FROM "
        "guest))",
        yesterday);
    while (row.step()) {
        ended.push_back(row.next<std::int64_t>());
    }
    for (const std::int64_t trip : ended) {
        forget(database, trip, now);
    }
}

}  // namespace gloam::journal
