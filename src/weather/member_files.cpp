#include "weather/member_files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

namespace gloam::weather {
namespace {

using Key = std::tuple<Quantity, Level, std::optional<AerosolKind>, TimeKind, Instant, Instant>;

Key key_of(const Field& field) {
    return {field.quantity, field.level, field.aerosol, field.time_kind, field.from, field.to};
}

/// Fields that are alike but for the file they came from, in the order of the files.
using Alike = std::map<Key, std::vector<Field*>>;

bool each_from_a_file_of_its_own(const std::vector<Field*>& fields) {
    for (std::size_t i = 1; i < fields.size(); ++i) {
        if (fields[i]->origin.file == fields[i - 1]->origin.file) {
            return false;
        }
    }
    return true;
}

/// How many files hold each field; absent if not all are in equally many, or if none is in several.
std::optional<std::size_t> files_a_field(const Alike& alike) {
    if (alike.empty()) {
        return std::nullopt;
    }
    const std::size_t count = alike.begin()->second.size();
    const bool members = count > 1 && std::ranges::all_of(alike, [count](const auto& entry) {
                             return entry.second.size() == count && each_from_a_file_of_its_own(entry.second);
                         });
    return members ? std::optional(count) : std::nullopt;
}

/// Whether some two files hold the same values throughout.
bool some_are_equal(const Alike& alike, std::size_t files) {
    for (std::size_t i = 1; i < files; ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (std::ranges::all_of(alike, [=](const auto& entry) {
                    return entry.second[i]->values == entry.second[j]->values;
                })) {
                return true;
            }
        }
    }
    return false;
}

}  // namespace

void number_members_by_file(Forecast& forecast) {
    Alike alike;
    for (Field& field : forecast.fields) {
        if (field.member) {
            return;
        }
        alike[key_of(field)].push_back(&field);
    }
    const auto count = files_a_field(alike);
    if (!count || some_are_equal(alike, *count)) {
        return;
    }
    for (auto& [key, fields] : alike) {
        for (std::size_t i = 0; i < fields.size(); ++i) {
            fields[i]->member = static_cast<int>(i) + 1;
        }
    }
    const auto& first = alike.begin()->second;
    forecast.notes.push_back(fmt::format(
        "{} files hold the same fields and no member number: taken as {} members in the order given, from {} "
        "to {}",
        *count, *count, first.front()->origin.file, first.back()->origin.file));
}

}  // namespace gloam::weather
