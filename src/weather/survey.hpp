#pragma once

#include <map>
#include <optional>
#include <set>
#include <span>
#include <utility>

#include "weather/forecast.hpp"

namespace gloam::weather {

/// Fields of one run that differ only in level, time and member.
struct FieldGroup {
    FieldHeader like;  ///< the first of them
    std::set<Level> levels;
    std::set<std::pair<Instant, Instant>> times;     ///< from, to
    std::optional<std::pair<double, double>> range;  ///< least and greatest value; absent if all are missing
    std::size_t missing_cells = 0;                   ///< over all fields
    std::size_t cells = 0;
};

/// What files of one run hold. The forecast has every field, but only the part of its grid that was kept.
struct RunSurvey {
    std::vector<FieldGroup> groups;
    Forecast forecast;
};

/// What one file holds.
struct FileSurvey {
    std::string file;
    std::optional<Error> error;  ///< why it, or the rest of it, could not be read
    std::size_t messages = 0;
    std::map<std::string, std::size_t> skipped;  ///< how many messages were not used, by reason
    std::size_t clamped_values = 0;
    std::size_t sentinel_values = 0;
    std::set<std::string> doubts;
};

struct Survey {
    std::vector<FileSurvey> files;
    std::vector<RunSurvey> runs;  ///< in the order in which they were met
};

/// Reads the files, of any number of runs, field by field, and tells what is in them. Of each grid only what
/// is needed within `radius_m` of `centre` is kept; without a centre, of its middle.
Survey survey(std::span<const std::filesystem::path> files, const std::optional<Wanted::Round>& round);

}  // namespace gloam::weather
