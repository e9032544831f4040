#pragma once

#include <optional>
#include <string>

#include "geo/position.hpp"
#include "weather/survey.hpp"

namespace gloam::app {

/// What a person may ask of the files beyond what is in them.
struct LookWishes {
    std::optional<geo::LatLon> place;
    std::optional<Instant> at;  ///< for the columns over the place; else every time of the files
    bool all = false;           ///< every reason for which messages were not used, not only the most frequent
};

/// What is in forecast files for this job, in tables for a person: run, steps, members, area, the layers and
/// by which route, what is missing, what was skipped and why; with a place, the columns over it and the cover
/// towards the sun.
std::string to_text(const weather::Survey& survey, const LookWishes& wishes);

}  // namespace gloam::app
