#pragma once

#include <span>
#include <string>
#include <vector>

#include "weather/route_steps.hpp"

namespace gloam::weather {

/// "the step valid at 2025-01-29T06:00:00Z of member 2"; of an average both ends are told.
std::string name_of(const RouteStep& step);

/// Names the levels that other steps have and one lacks.
void note_missing_levels(std::span<const RouteStep> steps, std::vector<std::string>& notes);

/// Names the members that lack a time which others have.
void note_missing_times(std::span<const RouteStep> steps, std::vector<std::string>& notes);

/// Names the times between which a member has no step for longer than kLongestGap; each once. Only for
/// instants: the hours between averages are not served.
void note_gaps(std::span<const RouteStep> steps, std::vector<std::string>& notes);

}  // namespace gloam::weather
