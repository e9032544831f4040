#include "trip/toml_table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <toml++/toml.h>
#include <algorithm>

namespace gloam::trip {
namespace {

std::optional<CivilDate> civil(const toml::date& date) {
    const CivilDate civil{std::chrono::year{date.year}, std::chrono::month{date.month},
                          std::chrono::day{date.day}};
    return civil.ok() ? std::optional(civil) : std::nullopt;
}

std::optional<ClockTime> clock_time(const toml::time& time) {
    return time.second == 0 && time.nanosecond == 0
               ? std::optional<ClockTime>(std::chrono::hours(time.hour) + std::chrono::minutes(time.minute))
               : std::nullopt;
}

TomlValue value_of(const toml::node& node);

TomlValue::Table members_of(const toml::table& table) {
    TomlValue::Table members;
    for (const auto& [key, node] : table) {
        members.emplace_back(std::string(key.str()), value_of(node));
    }
    return members;
}

TomlValue::List entries_of(const toml::array& array) {
    TomlValue::List entries;
    for (const toml::node& node : array) {
        entries.push_back(value_of(node));
    }
    return entries;
}

/// Moves a known value into the variant; an absent one leaves it empty.
template <class T>
void put(TomlValue& value, std::optional<T> known) {
    if (known) {
        value.content = *std::move(known);
    }
}

TomlValue value_of(const toml::node& node) {
    TomlValue value;
    value.line = node.source().begin.line;
    if (const auto* table = node.as_table()) {
        value.content = members_of(*table);
    } else if (const auto* array = node.as_array()) {
        value.content = entries_of(*array);
    } else if (node.is_boolean()) {
        put(value, node.value_exact<bool>());
    } else if (node.is_integer()) {
        put(value, node.value_exact<std::int64_t>());
    } else if (node.is_floating_point()) {
        put(value, node.value_exact<double>());
    } else if (node.is_string()) {
        put(value, node.value_exact<std::string>());
    } else if (node.is_date()) {
        put(value, civil(node.as_date()->get()));
    } else if (node.is_time()) {
        put(value, clock_time(node.as_time()->get()));
    } else if (const auto* moment = node.as_date_time(); moment && !moment->get().offset) {
        const auto date = civil(moment->get().date);
        const auto time = clock_time(moment->get().time);
        put(value, date && time ? std::optional(LocalMoment{*date, *time}) : std::nullopt);
    }
    return value;
}

/// What a value must be, for messages.
template <class T>
struct Wanted;
template <>
struct Wanted<CivilDate> {
    static constexpr const char* kFault = "is not a date";
    static constexpr const char* kHint = "write it like 2025-01-29";
    static auto parse(std::string_view text) { return parse_civil_date(text); }
};
template <>
struct Wanted<ClockTime> {
    static constexpr const char* kFault = "is not a time of day";
    static constexpr const char* kHint = "write it like \"06:40\"";
    static auto parse(std::string_view text) { return parse_clock_time(text); }
};
template <>
struct Wanted<LocalMoment> {
    static constexpr const char* kFault = "is not a date and time";
    static constexpr const char* kHint = "write it like \"2025-01-29 06:40\"";
    static auto parse(std::string_view text) { return parse_local_moment(text); }
};

template <class T>
constexpr bool kParsesWords =
    std::is_same_v<T, CivilDate> || std::is_same_v<T, ClockTime> || std::is_same_v<T, LocalMoment>;

template <class T>
std::optional<T> converted(const TomlValue& value) {
    if (const auto* exact = std::get_if<T>(&value.content)) {
        return *exact;
    }
    if constexpr (std::is_same_v<T, double>) {
        if (const auto* whole = std::get_if<std::int64_t>(&value.content)) {
            return static_cast<double>(*whole);
        }
    }
    if constexpr (kParsesWords<T>) {
        if (const auto* text = std::get_if<std::string>(&value.content)) {
            const auto parsed = Wanted<T>::parse(*text);
            return parsed ? std::optional<T>(*parsed) : std::nullopt;
        }
    }
    return std::nullopt;
}

/// What is wrong with a value that is no T.
template <class T>
std::pair<const char*, const char*> fault() {
    if constexpr (kParsesWords<T>) {
        return {Wanted<T>::kFault, Wanted<T>::kHint};
    } else {
        return {"has a value of the wrong type", "numbers stand bare, words in quotes"};
    }
}

}  // namespace

Result<TomlFile> parse_toml(std::string_view text, std::string_view where) {
    try {
        return TomlFile{std::string(where), value_of(toml::parse(text, where)), std::nullopt};
    } catch (const toml::parse_error& error) {
        return fail(ErrorKind::kUnreadable, std::string(error.description()),
                    fmt::format("{}, line {}", where, error.source().begin.line),
                    "mend the file; it is TOML");
    }
}

TomlTable::TomlTable(TomlFile& file, const TomlKeys& known) : TomlTable(file, file.top, {}, false) {
    refuse_others(known);
}

TomlTable::TomlTable(TomlFile& file, const TomlValue& value, std::string path, bool many)
    : file_(&file), value_(&value), path_(std::move(path)), many_(many) {}

void TomlTable::refuse_others(const TomlKeys& known) {
    for (const auto& [key, value] : std::get<TomlValue::Table>(value_->content)) {
        if (std::ranges::find(known, key) == known.end()) {
            complain(key, "is not a key that is known here",
                     fmt::format("known keys: {}", fmt::join(known, ", ")));
            return;
        }
    }
}

const TomlValue* TomlTable::find(std::string_view key) const {
    const auto& members = std::get<TomlValue::Table>(value_->content);
    const auto found = std::ranges::find(members, key, &TomlValue::Table::value_type::first);
    return found == members.end() ? nullptr : &found->second;
}

std::string TomlTable::name() const {
    if (path_.empty()) {
        return "the top level";
    }
    return many_ ? fmt::format("[[{}]]", path_) : fmt::format("[{}]", path_);
}

std::string TomlTable::path_of(std::string_view key) const {
    return path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key);
}

std::string TomlTable::place(std::size_t line) const {
    return fmt::format("{}, line {}, {}", file_->where, line, name());
}

void TomlTable::complain(std::string_view key, std::string_view what, std::string hint) {
    if (!file_->error) {
        const TomlValue* value = find(key);
        file_->error = Error{ErrorKind::kBadInput, fmt::format("key '{}' {}", key, what),
                             place(value ? value->line : value_->line), std::move(hint)};
    }
}

void TomlTable::complain(Error error) {
    if (!file_->error) {
        error.where = place(value_->line);
        file_->error = std::move(error);
    }
}

template <class T>
std::optional<T> TomlTable::get(std::string_view key) {
    const TomlValue* value = find(key);
    if (!value) {
        return std::nullopt;
    }
    auto found = converted<T>(*value);
    if (!found) {
        const auto [what, hint] = fault<T>();
        complain(key, what, hint);
    }
    return found;
}

template <class T>
T TomlTable::need(std::string_view key) {
    auto value = get<T>(key);
    if (!value) {
        complain(key, "is missing", fmt::format("add {} to {}", key, name()));
    }
    return value ? *std::move(value) : T{};
}

template <class T>
std::vector<T> TomlTable::list(std::string_view key) {
    std::vector<T> found;
    const TomlValue* value = find(key);
    if (!value) {
        return found;
    }
    const auto* entries = std::get_if<TomlValue::List>(&value->content);
    if (!entries) {
        complain(key, "is not a list", "write it in square brackets, with commas between");
        return found;
    }
    for (const TomlValue& entry : *entries) {
        if (auto each = converted<T>(entry)) {
            found.push_back(*std::move(each));
        } else {
            const auto [what, hint] = fault<T>();
            complain(key, what, hint);
        }
    }
    return found;
}

std::optional<TomlTable> TomlTable::table(std::string_view key, const TomlKeys& known) {
    const TomlValue* value = find(key);
    if (!value) {
        return std::nullopt;
    }
    if (!std::holds_alternative<TomlValue::Table>(value->content)) {
        complain(key, "is not a table", fmt::format("write [{}]", path_of(key)));
        return std::nullopt;
    }
    TomlTable table(*file_, *value, path_of(key), false);
    table.refuse_others(known);
    return table;
}

std::vector<TomlTable> TomlTable::tables(std::string_view key, const TomlKeys& known) {
    std::vector<TomlTable> tables;
    const TomlValue* value = find(key);
    if (!value) {
        return tables;
    }
    const auto is_table = [](const TomlValue& entry) {
        return std::holds_alternative<TomlValue::Table>(entry.content);
    };
    const auto* entries = std::get_if<TomlValue::List>(&value->content);
    if (!entries || !std::ranges::all_of(*entries, is_table)) {
        complain(key, "is not a list of tables",
                 fmt::format("write [[{0}]] for each {1}", path_of(key), key));
        return tables;
    }
    for (const TomlValue& entry : *entries) {
        TomlTable table(*file_, entry, path_of(key), true);
        table.refuse_others(known);
        tables.push_back(std::move(table));
    }
    return tables;
}

template std::optional<bool> TomlTable::get(std::string_view);
template std::optional<std::int64_t> TomlTable::get(std::string_view);
template std::optional<double> TomlTable::get(std::string_view);
template std::optional<std::string> TomlTable::get(std::string_view);
template std::optional<CivilDate> TomlTable::get(std::string_view);
template std::optional<ClockTime> TomlTable::get(std::string_view);
template std::optional<LocalMoment> TomlTable::get(std::string_view);
template double TomlTable::need(std::string_view);
template std::string TomlTable::need(std::string_view);
template CivilDate TomlTable::need(std::string_view);
template std::vector<std::string> TomlTable::list(std::string_view);
template std::vector<LocalMoment> TomlTable::list(std::string_view);

}  // namespace gloam::trip
