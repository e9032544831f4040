#pragma once

#include <optional>
#include <string_view>

#include "base/instant.hpp"

namespace gloam::weather {

/// A run of a model and when all of it that a dawn needs is there.
struct RunArrival {
    Instant run_time;
    Instant complete;  ///< by the latest end of what is published
};

/// The first run of the same source, later than the one of `run_time`, that is not complete before `now`;
/// absent if nothing is known of the source. Source: data/model_runs/README.md.
std::optional<RunArrival> next_run(std::string_view source, Instant run_time, Instant now);

}  // namespace gloam::weather
