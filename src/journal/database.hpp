#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "trip/trip.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace gloam::journal {

/// How SQLite's refusals travel inside this module; the module's own functions end them in a Result.
struct Failure {
    Error error;
};

/// Runs a piece of work and turns a Failure into an Error.
template <class Work>
auto guarded(Work work) -> Result<decltype(work())> {
    try {
        if constexpr (std::is_void_v<decltype(work())>) {
            work();
            return {};
        } else {
            return work();
        }
    } catch (Failure& failure) {
        return tl::unexpected(std::move(failure.error));
    }
}

class Statement;

/// One connection to an SQLite file. Every failure is thrown as a Failure that names the file.
class Database {
  public:
    /// Opens the file for reading and writing; it must exist. Waits two seconds for another process.
    explicit Database(const std::filesystem::path& file);

    const std::filesystem::path& file() const { return file_; }

    /// Runs SQL without parameters, any number of statements.
    void run(std::string_view script);

    /// A statement with its parameters in order.
    template <class... Values>
    Statement query(std::string_view sql, const Values&... values) const;

    /// Runs a statement that yields no row. Returns the row that it inserted, if it inserted one.
    template <class... Values>
    std::int64_t change(std::string_view sql, const Values&... values);

    /// A whole copy of the database in a new file, through SQLite's backup.
    void copy_to(const std::filesystem::path& file) const;

  private:
    friend class Statement;
    [[noreturn]] void refuse(int code) const;
    std::int64_t finish(Statement statement);

    struct Close {
        void operator()(sqlite3* connection) const;
    };
    std::filesystem::path file_;
    std::unique_ptr<sqlite3, Close> connection_;
};

/// A running statement: its parameters, then its rows, each read from left to right.
class Statement {
  public:
    Statement(const Database& database, std::string_view sql);

    void bind(std::nullopt_t);
    void bind(std::int64_t value);
    void bind(double value);
    void bind(std::string_view value);
    void bind(std::span<const std::byte> value);
    void bind(bool value) { bind(std::int64_t{value}); }
    void bind(int value) { bind(std::int64_t{value}); }
    void bind(const char* value) { bind(std::string_view(value)); }  // else it would count as a bool
    void bind(const std::string& value) { bind(std::string_view(value)); }
    void bind(const std::vector<std::byte>& value) { bind(std::span(value)); }
    void bind(Instant value) { bind(std::int64_t{value.time_since_epoch().count()}); }
    void bind(CivilDate value) { bind(trip::to_text(value)); }
    void bind(trip::ClockTime value) { bind(trip::to_text(value)); }
    void bind(const trip::LocalMoment& value) { bind(trip::to_text(value)); }
    void bind(HeightMsl value) { bind(value.metres); }
    void bind(Azimuth value) { bind(value.degrees()); }
    template <class T>
    void bind(const std::optional<T>& value) {
        value ? bind(*value) : bind(std::nullopt);
    }

    /// Moves to the next row; false after the last.
    bool step();

    /// The next column of the row. A value that cannot be a T is a Failure (kUnreadable).
    template <class T>
    T next();

    /// The next column of the row, absent if NULL.
    template <class T>
    std::optional<T> next_if() {
        if (is_null()) {
            ++column_;
            return std::nullopt;
        }
        return next<T>();
    }

    /// Throws the Failure of a column, the last one read, that holds no `wanted`.
    [[noreturn]] void damaged(std::string_view wanted) const;

  private:
    bool is_null() const;
    void bound(int code) const;
    /// The number of the next column, which holds a value of SQLite's `type`.
    int need(int type, std::string_view wanted);
    template <class T>
    T parsed(Result<T> (*parse)(std::string_view), std::string_view wanted);

    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    const Database* database_;
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
    int parameter_ = 0;
    int column_ = 0;
};

template <>
std::int64_t Statement::next();
template <>
double Statement::next();
template <>
std::string Statement::next();
template <>
std::vector<std::byte> Statement::next();
template <>
bool Statement::next();
template <>
int Statement::next();
template <>
Instant Statement::next();
template <>
HeightMsl Statement::next();
template <>
Azimuth Statement::next();
template <>
CivilDate Statement::next();
template <>
trip::ClockTime Statement::next();
template <>
trip::LocalMoment Statement::next();

template <class... Values>
Statement Database::query(std::string_view sql, const Values&... values) const {
    Statement statement(*this, sql);
    (statement.bind(values), ...);
    return statement;
}

template <class... Values>
std::int64_t Database::change(std::string_view sql, const Values&... values) {
    return finish(query(sql, values...));
}

/// What is written all or not at all, and undone unless committed; or read as of one moment.
class Transaction {
  public:
    enum class Intent { kWrite, kRead };  ///< other writers wait for one who writes, nobody for one who reads

    explicit Transaction(Database& database, Intent intent = Intent::kWrite);
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();
    void commit();

  private:
    Database* database_;
    bool open_ = true;
};

}  // namespace gloam::journal
