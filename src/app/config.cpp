#include "app/config.hpp"

#include <cmath>

#include "trip/toml_table.hpp"

namespace gloam::app {
namespace {

constexpr double kMostLimit = 1e5;

/// Limits of cautions by their names; those not named stay the built-in ones.
decide::CautionLimits limits_from(trip::TomlTable& table) {
    decide::CautionLimits limits;
    for (const decide::NamedLimit& limit : decide::kNamedLimits) {
        const auto value = table.get<double>(limit.name);
        if (value && !(std::abs(*value) <= kMostLimit)) {
            table.complain(limit.name, "is no limit", "give a number in the unit that its name ends with");
        }
        limits.*limit.value = value.value_or(limits.*limit.value);
    }
    return limits;
}

trip::TomlKeys limit_names() {
    trip::TomlKeys names;
    for (const decide::NamedLimit& limit : decide::kNamedLimits) {
        names.push_back(limit.name);
    }
    return names;
}

}  // namespace

Result<Config> parse_config(std::string_view text, const std::filesystem::path& file) {
    auto toml = trip::parse_toml(text, file.string());
    if (!toml) {
        return tl::unexpected(toml.error());
    }
    trip::TomlTable table(*toml, {"trip", "class", "starts_for_one", "cautions"});
    Config config;
    if (const auto trip = table.get<std::string>("trip")) {
        config.trip = file.parent_path() / *trip;
    }
    config.outcome_class = table.get<std::string>("class");
    config.starts_for_one = table.get<double>("starts_for_one");
    if (auto cautions = table.table("cautions", limit_names())) {
        config.limits = limits_from(*cautions);
    }
    if (toml->error) {
        return tl::unexpected(*std::move(toml->error));
    }
    return config;
}

}  // namespace gloam::app
