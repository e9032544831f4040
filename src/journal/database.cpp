#include "journal/database.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cmath>

namespace gloam::journal {
namespace {

constexpr int kPatience_ms = 2000;

/// What SQLite's result code means to a person.
Error error_of(int code, const char* words, const std::filesystem::path& file) {
    const std::string where = file.string();
    switch (code & 0xff) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
        case SQLITE_PROTOCOL:
            return {ErrorKind::kBusy, "another process is writing to the journal", where,
                    "wait until it is done and try again; nothing was changed"};
        case SQLITE_FULL:
            return {ErrorKind::kDenied, "the disk is full", where, "make room; nothing was changed"};
        case SQLITE_READONLY:
        case SQLITE_PERM:
        case SQLITE_CANTOPEN:
        case SQLITE_AUTH:
            return {ErrorKind::kDenied, "the journal cannot be opened or written", where,
                    "check that the folder and the file exist and are yours to write"};
        case SQLITE_IOERR:
            return {ErrorKind::kDenied, fmt::format("the disk refuses: {}", words), where,
                    "check the disk; what was acknowledged before is kept"};
        case SQLITE_NOTADB:
            return {ErrorKind::kUnreadable, "the file is no journal", where, "check --journal"};
        case SQLITE_CORRUPT:
            return {ErrorKind::kUnreadable, "the journal is damaged", where,
                    "put a copy in its place, or save what is left with: sqlite3 FILE .recover"};
        case SQLITE_NOMEM:
        case SQLITE_TOOBIG:
            return {ErrorKind::kBadInput, "more than the journal can hold", where, "record less at once"};
        case SQLITE_ERROR:
        case SQLITE_SCHEMA:
            return {ErrorKind::kUnreadable,
                    fmt::format("the journal is not as this program makes it: {}", words), where,
                    "it was changed by another program; put a copy in its place"};
        default:
            return {ErrorKind::kInternal, words, where, "please report it, with the command line"};
    }
}

}  // namespace

void Database::Close::operator()(sqlite3* connection) const {
    sqlite3_close(connection);
}

void Statement::Finalize::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

void Database::refuse(int code) const {
    throw Failure{error_of(code, sqlite3_errmsg(connection_.get()), file_)};
}

Database::Database(const std::filesystem::path& file) : file_(file) {
    sqlite3* connection = nullptr;
    const int code = sqlite3_open_v2(file.c_str(), &connection, SQLITE_OPEN_READWRITE, nullptr);
    connection_.reset(connection);
    if (code != SQLITE_OK) {
        refuse(code);
    }
    sqlite3_busy_timeout(connection, kPatience_ms);
    // A file may come from anywhere: no schema of it runs code or writes where it should not.
    sqlite3_db_config(connection, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(connection, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
}

void Database::run(std::string_view script) {
    const std::string text(script);
    const int code = sqlite3_exec(connection_.get(), text.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) {
        refuse(code);
    }
}

std::int64_t Database::finish(Statement statement) {
    while (statement.step()) {
    }
    return sqlite3_last_insert_rowid(connection_.get());
}

void Database::copy_to(const std::filesystem::path& file) const {
    sqlite3* target = nullptr;
    int code = sqlite3_open_v2(file.c_str(), &target, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
    const std::unique_ptr<sqlite3, Close> copy(target);
    if (code == SQLITE_OK) {
        sqlite3_backup* backup = sqlite3_backup_init(target, "main", connection_.get(), "main");
        if (backup) {
            sqlite3_backup_step(backup, -1);
            sqlite3_backup_finish(backup);
        }
        code = sqlite3_errcode(target);
    }
    if (code != SQLITE_OK) {
        throw Failure{error_of(code, sqlite3_errmsg(target), file)};
    }
}

Statement::Statement(const Database& database, std::string_view sql) : database_(&database) {
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v2(database.connection_.get(), sql.data(), static_cast<int>(sql.size()),
                                        &statement, nullptr);
    statement_.reset(statement);
    if (code != SQLITE_OK) {
        database.refuse(code);
    }
}

void Statement::bound(int code) const {
    if (code != SQLITE_OK) {
        database_->refuse(code);
    }
}

void Statement::bind(std::nullopt_t) {
    bound(sqlite3_bind_null(statement_.get(), ++parameter_));
}

void Statement::bind(std::int64_t value) {
    bound(sqlite3_bind_int64(statement_.get(), ++parameter_, value));
}

void Statement::bind(double value) {
    bound(sqlite3_bind_double(statement_.get(), ++parameter_, value));
}

// An empty view may hold a null pointer, which SQLite would take for NULL.
void Statement::bind(std::string_view value) {
    bound(sqlite3_bind_text64(statement_.get(), ++parameter_, value.empty() ? "" : value.data(), value.size(),
                              SQLITE_TRANSIENT, SQLITE_UTF8));
}

void Statement::bind(std::span<const std::byte> value) {
    bound(value.empty() ? sqlite3_bind_zeroblob(statement_.get(), ++parameter_, 0)
                        : sqlite3_bind_blob64(statement_.get(), ++parameter_, value.data(), value.size(),
                                              SQLITE_TRANSIENT));
}

bool Statement::step() {
    column_ = 0;
    const int code = sqlite3_step(statement_.get());
    if (code != SQLITE_ROW && code != SQLITE_DONE) {
        database_->refuse(code);
    }
    return code == SQLITE_ROW;
}

bool Statement::is_null() const {
    return sqlite3_column_type(statement_.get(), column_) == SQLITE_NULL;
}

void Statement::damaged(std::string_view wanted) const {
    throw Failure{{ErrorKind::kUnreadable,
                   fmt::format("the journal holds no {} in column '{}'", wanted,
                               sqlite3_column_name(statement_.get(), column_ - 1)),
                   database_->file().string(), "it was changed by another program; put a copy in its place"}};
}

int Statement::need(int type, std::string_view wanted) {
    const int column = column_++;
    if (sqlite3_column_type(statement_.get(), column) != type) {
        damaged(wanted);
    }
    return column;
}

template <>
std::int64_t Statement::next() {
    const int column = need(SQLITE_INTEGER, "whole number");
    return sqlite3_column_int64(statement_.get(), column);
}

template <>
double Statement::next() {
    const int column = need(SQLITE_FLOAT, "number");
    return sqlite3_column_double(statement_.get(), column);
}

template <>
std::string Statement::next() {
    const int column = need(SQLITE_TEXT, "text");
    const unsigned char* text = sqlite3_column_text(statement_.get(), column);
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return {reinterpret_cast<const char*>(text), static_cast<std::size_t>(size)};
}

template <>
std::vector<std::byte> Statement::next() {
    const int column = need(SQLITE_BLOB, "bytes");
    const auto* bytes = static_cast<const std::byte*>(sqlite3_column_blob(statement_.get(), column));
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return {bytes, bytes + size};
}

template <>
bool Statement::next() {
    return next<std::int64_t>() != 0;
}

template <>
int Statement::next() {
    const std::int64_t value = next<std::int64_t>();
    if (value != static_cast<int>(value)) {
        damaged("number of that size");
    }
    return static_cast<int>(value);
}

template <>
Instant Statement::next() {
    return Instant(Duration(next<std::int64_t>()));
}

template <>
HeightMsl Statement::next() {
    return {next<double>()};
}

template <>
Azimuth Statement::next() {
    const double degrees = next<double>();
    if (!std::isfinite(degrees)) {
        damaged("bearing");
    }
    return Azimuth::degrees(degrees);
}

template <class T>
T Statement::parsed(Result<T> (*parse)(std::string_view), std::string_view wanted) {
    const auto value = parse(next<std::string>());
    if (!value) {
        damaged(wanted);
    }
    return *value;
}

template <>
CivilDate Statement::next() {
    return parsed(parse_civil_date, "date");
}

template <>
trip::ClockTime Statement::next() {
    return parsed(trip::parse_clock_time, "time of day");
}

template <>
trip::LocalMoment Statement::next() {
    return parsed(trip::parse_local_moment, "date and time");
}

Transaction::Transaction(Database& database, Intent intent) : database_(&database) {
    database.run(intent == Intent::kWrite ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
    if (open_) {
        try {
            database_->run("ROLLBACK");
        } catch (const Failure&) {
            // SQLite has already rolled back by itself, as it does when the disk is full.
        }
    }
}

void Transaction::commit() {
    database_->run("COMMIT");
    open_ = false;
}

}  // namespace gloam::journal
