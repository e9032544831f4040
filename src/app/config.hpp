#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.hpp"
#include "decide/caution_limits.hpp"

namespace gloam::app {

/// What a person set once and for all: `trip` (path, relative to the config file), `class`, `starts_for_one`;
/// in the table [cautions] the limits of cautions by their names in decide::CautionLimits.
struct Config {
    std::optional<std::filesystem::path> trip;
    std::optional<std::string> outcome_class;
    std::optional<double> starts_for_one;
    decide::CautionLimits limits;
};
Result<Config> parse_config(std::string_view toml, const std::filesystem::path& file);

}  // namespace gloam::app
