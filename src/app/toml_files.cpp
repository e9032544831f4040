#include "app/toml_files.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <toml++/toml.h>
#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "sky/night.hpp"

namespace gloam::app {
namespace {

/// Reads the keys of one TOML table and remembers the first thing that is wrong: an unknown key, a value of
/// another type.
class TomlTable {
  public:
    TomlTable(const toml::table& table, std::string name, std::string_view file,
              std::initializer_list<std::string_view> known)
        : table_(table), name_(std::move(name)), file_(file) {
        for (const auto& [key, node] : table) {
            if (std::find(known.begin(), known.end(), key.str()) == known.end()) {
                complain(key.str(), node, "is not a key that is known here",
                         fmt::format("known keys: {}", fmt::join(known, ", ")));
                return;
            }
        }
    }

    template <class T>
    std::optional<T> get(std::string_view key) {
        const toml::node* node = table_.get(key);
        if (!node) {
            return std::nullopt;
        }
        auto value = node->value<T>();
        if (!value) {
            complain(key, *node, "has a value of the wrong type", "numbers stand bare, words in quotes");
        }
        return value;
    }

    template <class T>
    T need(std::string_view key) {
        const auto value = get<T>(key);
        if (!value) {
            complain(key, table_, "is missing", fmt::format("add {} to {}", key, name_));
        }
        return value.value_or(T{});
    }

    void complain(std::string_view key, const toml::node& at, std::string_view what, std::string hint) {
        if (!error_) {
            error_ =
                Error{ErrorKind::kBadInput, fmt::format("key '{}' {}", key, what),
                      fmt::format("{}, line {}, {}", file_, at.source().begin.line, name_), std::move(hint)};
        }
    }

    const std::optional<Error>& error() const { return error_; }

  private:
    const toml::table& table_;
    std::string name_;
    std::string_view file_;
    std::optional<Error> error_;
};

/// Parses TOML; a syntax error names its line.
Result<toml::table> parse_toml(std::string_view text, std::string_view file) {
    try {
        return toml::parse(text, file);
    } catch (const toml::parse_error& error) {
        return fail(ErrorKind::kUnreadable, std::string(error.description()),
                    fmt::format("{}, line {}", file, error.source().begin.line), "mend the file; it is TOML");
    }
}

/// A table by name; absent if there is none, an error if the name holds something else.
Result<const toml::table*> sub_table(const toml::table& document, std::string_view name,
                                     std::string_view file) {
    const toml::node* node = document.get(name);
    if (node && !node->is_table()) {
        return fail(ErrorKind::kBadInput, fmt::format("'{}' is not a table", name),
                    fmt::format("{}, line {}", file, node->source().begin.line),
                    fmt::format("write [{}]", name));
    }
    return node ? node->as_table() : nullptr;
}

std::optional<CivilDate> date_from(TomlTable& table, std::string_view key, const toml::table& raw) {
    const toml::node* node = raw.get(key);
    if (!node) {
        return std::nullopt;
    }
    if (const auto date = node->value<toml::date>()) {
        const CivilDate civil{std::chrono::year{date->year}, std::chrono::month{date->month},
                              std::chrono::day{date->day}};
        if (civil.ok()) {
            return civil;
        }
    }
    if (const auto text = node->value<std::string>()) {
        if (const auto civil = parse_civil_date(*text)) {
            return *civil;
        }
    }
    table.complain(key, *node, "is not a date", "write it like 2025-01-29");
    return std::nullopt;
}

/// Absent: land.
sky::Ground ground_from(TomlTable& table, const toml::table& raw) {
    const auto word = table.get<std::string>("ground");
    if (word == "water") {
        return sky::Ground::kWater;
    }
    if (word == "snow") {
        return sky::Ground::kSnow;
    }
    if (word && word != "land") {
        table.complain("ground", *raw.get("ground"), "is no ground", "give water, land or snow");
    }
    return sky::Ground::kLand;
}

/// Absent: no town.
double town_glow_from(TomlTable& table, const toml::table& raw) {
    const auto checked =
        sky::town_zenith_luminance(1e-3 * table.get<double>("town_glow_mcd_m2").value_or(0.0));
    if (!checked) {
        table.complain("town_glow_mcd_m2", *raw.get("town_glow_mcd_m2"), "is no light of a town",
                       "give 0 to 100 mcd m-2 at the zenith: 0.2 in a village, 10 in a great city");
    }
    return checked.value_or(0.0);
}

Result<TripPlace> place_from(const toml::table& raw, const std::string& name, std::string_view file) {
    TomlTable table(raw, name, file,
                    {"name", "lat", "lon", "height_m", "zone", "ground", "town_glow_mcd_m2"});
    TripPlace place;
    place.name = table.need<std::string>("name");
    const auto lat_deg = table.need<double>("lat");
    const auto lon_deg = table.need<double>("lon");
    if (const auto height_m = table.get<double>("height_m")) {
        place.height = HeightMsl{*height_m};
        if (!(std::abs(*height_m) <= 9000.0)) {
            table.complain("height_m", *raw.get("height_m"), "is no height on Earth",
                           "give metres above sea level");
        }
    }
    place.zone = table.get<std::string>("zone");
    place.ground = ground_from(table, raw);
    place.town_zenith_cd_m2 = town_glow_from(table, raw);
    if (const auto& error = table.error()) {
        return tl::unexpected(*error);
    }
    const auto at = geo::make_lat_lon(lat_deg, lon_deg);
    if (!at) {
        Error error = at.error();
        error.where = fmt::format("{}, line {}, {}", file, raw.source().begin.line, name);
        return tl::unexpected(error);
    }
    place.at = *at;
    return place;
}

/// The first error of several steps, if any.
std::optional<Error> read_trip_table(const toml::table& raw, std::string_view file, Trip& trip) {
    TomlTable table(raw, "[trip]", file, {"name", "zone", "start", "end"});
    trip.name = table.need<std::string>("name");
    trip.zone = table.get<std::string>("zone");
    trip.start = date_from(table, "start", raw);
    trip.end = date_from(table, "end", raw);
    return table.error();
}

std::optional<Error> read_group_table(const toml::table& raw, std::string_view file, Trip& trip) {
    TomlTable table(raw, "[group]", file, {"size", "starts_for_one"});
    if (const auto size = table.get<std::int64_t>("size")) {
        trip.group_size = static_cast<int>(std::clamp<std::int64_t>(*size, 0, 1000));
    }
    trip.starts_for_one = table.get<double>("starts_for_one");
    return table.error();
}

std::optional<Error> read_places(const toml::table& document, std::string_view file, Trip& trip) {
    const toml::node* node = document.get("place");
    if (!node) {
        return std::nullopt;
    }
    const toml::array* places = node->as_array();
    if (!places || !places->is_array_of_tables()) {
        return Error{ErrorKind::kBadInput, "'place' is not a list of tables",
                     fmt::format("{}, line {}", file, node->source().begin.line),
                     "write [[place]] for each place"};
    }
    for (const toml::node& entry : *places) {
        auto place = place_from(*entry.as_table(), "[[place]]", file);
        if (!place) {
            return place.error();
        }
        trip.places.push_back(std::move(*place));
    }
    return std::nullopt;
}

std::optional<Error> read_base(const toml::table& raw, std::string_view file, Trip& trip) {
    auto base = place_from(raw, "[base]", file);
    if (!base) {
        return base.error();
    }
    trip.base = std::move(*base);
    return std::nullopt;
}

}  // namespace

Result<Trip> parse_trip(std::string_view text, std::string_view where) {
    const auto document = parse_toml(text, where);
    if (!document) {
        return tl::unexpected(document.error());
    }
    Trip trip;
    const TomlTable top(*document, "the top level", where, {"trip", "base", "group", "place"});
    if (const auto& error = top.error()) {
        return tl::unexpected(*error);
    }
    using Step = std::optional<Error> (*)(const toml::table&, std::string_view, Trip&);
    const std::initializer_list<std::pair<std::string_view, Step>> steps{
        {"trip", read_trip_table}, {"base", read_base}, {"group", read_group_table}};
    for (const auto& [name, step] : steps) {
        const auto table = sub_table(*document, name, where);
        if (!table) {
            return tl::unexpected(table.error());
        }
        if (!*table && name == "trip") {
            return fail(ErrorKind::kBadInput, "there is no [trip] table", std::string(where),
                        "begin the file with [trip] and name = \"...\"");
        }
        if (*table) {
            if (auto error = step(**table, where, trip)) {
                return tl::unexpected(std::move(*error));
            }
        }
    }
    if (auto error = read_places(*document, where, trip)) {
        return tl::unexpected(std::move(*error));
    }
    return trip;
}

Result<Config> parse_config(std::string_view text, const std::filesystem::path& file) {
    const std::string where = file.string();
    const auto document = parse_toml(text, where);
    if (!document) {
        return tl::unexpected(document.error());
    }
    TomlTable table(*document, "the top level", where, {"trip", "class", "starts_for_one"});
    Config config;
    if (const auto trip = table.get<std::string>("trip")) {
        config.trip = file.parent_path() / *trip;
    }
    config.outcome_class = table.get<std::string>("class");
    config.starts_for_one = table.get<double>("starts_for_one");
    if (const auto& error = table.error()) {
        return tl::unexpected(*error);
    }
    return config;
}

}  // namespace gloam::app
