#pragma once

#include <cstddef>
#include <nlohmann/json_fwd.hpp>
#include <string_view>

#include "base/error.hpp"

namespace gloam::weather {

/// A whole answer for nine days takes about 150 kB.
inline constexpr std::size_t kMostJsonBytes = 2U << 20U;

/// The tree of a JSON text; `name` stands for the file in errors. Error (kUnreadable, naming the byte) if it
/// is no sound JSON, and if it is larger or deeper than any point forecast: kMostJsonBytes, 16 levels.
Result<nlohmann::json> parse_json(std::string_view text, std::string_view name);

}  // namespace gloam::weather
