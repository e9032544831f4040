#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "trip/trip.hpp"

namespace gloam::trip {

/// A value of a TOML file and the line it begins on. A value of a kind that no file of ours holds (a time
/// with seconds, a date with an offset) is there, but empty.
struct TomlValue {
    using List = std::vector<TomlValue>;
    using Table = std::vector<std::pair<std::string, TomlValue>>;
    std::variant<std::monostate, bool, std::int64_t, double, std::string, CivilDate, ClockTime, LocalMoment,
                 List, Table>
        content;
    std::size_t line = 0;
};

/// A TOML file that is being read: its name, its top level, and the first thing that was found wrong.
struct TomlFile {
    std::string where;
    TomlValue top;
    std::optional<Error> error;
};

/// Parses TOML 1.0. Error (kUnreadable): a syntax error, with its line. `where` names the file in errors.
Result<TomlFile> parse_toml(std::string_view text, std::string_view where);

/// Names of keys.
using TomlKeys = std::vector<std::string_view>;

/// Reads the keys of one table. What is wrong goes to the file's `error`, unless there is one already; what
/// was asked for then is absent.
class TomlTable {
  public:
    /// The top level of a file, which must outlive this. Keys other than `known` are wrong.
    TomlTable(TomlFile& file, const TomlKeys& known);

    /// A value, absent if the key is: bool, std::int64_t, double, std::string, CivilDate, ClockTime or
    /// LocalMoment. Numbers may be whole, dates and times may stand in quotes.
    template <class T>
    std::optional<T> get(std::string_view key);

    /// A value that must be there.
    template <class T>
    T need(std::string_view key);

    /// A list of values, empty if the key is absent.
    template <class T>
    std::vector<T> list(std::string_view key);

    /// A table of its own, [key].
    std::optional<TomlTable> table(std::string_view key, const TomlKeys& known);

    /// A list of tables, [[key]].
    std::vector<TomlTable> tables(std::string_view key, const TomlKeys& known);

    /// Tells that something is wrong with a key, present or not: "key 'KEY' WHAT".
    void complain(std::string_view key, std::string_view what, std::string hint);

    /// Tells that something is wrong with the table.
    void complain(Error error);

  private:
    TomlTable(TomlFile& file, const TomlValue& value, std::string path, bool many);
    void refuse_others(const TomlKeys& known);
    const TomlValue* find(std::string_view key) const;
    std::string name() const;
    std::string path_of(std::string_view key) const;
    std::string place(std::size_t line) const;

    TomlFile* file_;
    const TomlValue* value_;
    std::string path_;   ///< "place.stand"; empty: the top level
    bool many_ = false;  ///< one of [[path]]
};

}  // namespace gloam::trip
