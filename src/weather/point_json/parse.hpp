#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string_view>

#include "base/error.hpp"

namespace gloam::weather {

/// The tree of a JSON text; `name` stands for the file in errors. Error (kUnreadable, naming the byte) if it
/// is no sound JSON, and if it is larger or deeper than any point forecast: 2 MiB, 16 levels.
Result<nlohmann::json> parse_json(std::string_view text, std::string_view name);

}  // namespace gloam::weather
