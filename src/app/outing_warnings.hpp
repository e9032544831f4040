#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "decide/cautions.hpp"

namespace gloam::app {

/// The warnings that a look knows: those of `file`, if one was given now, else those that the last look knew;
/// besides them what the leader typed, now or before. Of a file only those that may hold at `place`. Errors:
/// the file cannot be read, or text that is no UTF-8.
Result<std::optional<decide::KnownWarnings>> known_warnings(
    const std::optional<decide::KnownWarnings>& before, const std::string& file,
    const std::vector<std::string>& typed, geo::LatLon place, Instant now);

}  // namespace gloam::app
