#include "app/config.hpp"

#include "trip/toml_table.hpp"

namespace gloam::app {

Result<Config> parse_config(std::string_view text, const std::filesystem::path& file) {
    auto toml = trip::parse_toml(text, file.string());
    if (!toml) {
        return tl::unexpected(toml.error());
    }
    trip::TomlTable table(*toml, {"trip", "class", "starts_for_one"});
    Config config;
    if (const auto trip = table.get<std::string>("trip")) {
        config.trip = file.parent_path() / *trip;
    }
    config.outcome_class = table.get<std::string>("class");
    config.starts_for_one = table.get<double>("starts_for_one");
    if (toml->error) {
        return tl::unexpected(*std::move(toml->error));
    }
    return config;
}

}  // namespace gloam::app
