#include "weather/survey.hpp"

#include <algorithm>
#include <tuple>

#include "weather/forecast_file.hpp"
#include "weather/member_files.hpp"

namespace gloam::weather {
namespace {

bool alike(const FieldHeader& one, const FieldHeader& other) {
    const auto key = [](const FieldHeader& field) {
        return std::tuple(field.quantity, field.level.kind, field.level.band, field.aerosol, field.time_kind);
    };
    return key(one) == key(other) && same_grid(one.grid, other.grid);
}

void count_values(FieldGroup& group, const Field& field) {
    group.cells += field.values.size();
    for (std::size_t cell = 0; cell < field.values.size(); ++cell) {
        if (!has_value(field, cell)) {
            ++group.missing_cells;
            continue;
        }
        const auto value = static_cast<double>(field.values[cell]);
        group.range =
            group.range ? std::pair(std::min(group.range->first, value), std::max(group.range->second, value))
                        : std::pair(value, value);
    }
}

void count(std::vector<FieldGroup>& groups, const Field& field) {
    auto group =
        std::ranges::find_if(groups, [&field](const auto& other) { return alike(other.like, field); });
    if (group == groups.end()) {
        group = groups.emplace(groups.end());
        group->like = field;
    }
    group->levels.insert(field.level);
    group->times.insert({field.from, field.to});
    count_values(*group, field);
}

RunSurvey& run_of(std::vector<RunSurvey>& runs, const DecodedField& decoded) {
    const auto found = std::ranges::find_if(runs, [&decoded](const RunSurvey& run) {
        return run.forecast.source == decoded.source && run.forecast.run_time == decoded.run_time;
    });
    if (found != runs.end()) {
        return *found;
    }
    RunSurvey& run = runs.emplace_back();
    run.forecast.source = decoded.source;
    run.forecast.run_time = decoded.run_time;
    return run;
}

/// A circle that holds next to nothing, in the middle of the grid.
Wanted::Round middle_of(const Grid& grid) {
    return {centre_of(grid), 1.0};
}

void take(Survey& survey, FileSurvey& file, const std::optional<Wanted::Round>& round,
          DecodedField&& decoded) {
    file.clamped_values += decoded.clamped_values;
    file.sentinel_values += decoded.sentinel_values;
    if (decoded.doubt) {
        file.doubts.insert(*decoded.doubt);
    }
    RunSurvey& run = run_of(survey.runs, decoded);
    count(run.groups, decoded.field);
    Wanted part;
    part.round = round ? *round : middle_of(decoded.field.grid);
    crop(part, decoded.field);
    run.forecast.fields.push_back(std::move(decoded.field));
}

void look_into(Survey& survey, const std::filesystem::path& path, const std::optional<Wanted::Round>& round) {
    FileSurvey file;
    file.file = path.filename().string();
    const FieldVisitor visitor{.wants = [](const FieldHeader&) { return true; },
                               .take =
                                   [&](DecodedField&& decoded) {
                                       take(survey, file, round, std::move(decoded));
                                       return Result<void>();
                                   },
                               .pass_over = [](const NotWanted&) { return Result<void>(); },
                               .skip = [&](SkippedMessage&& skipped) { ++file.skipped[skipped.reason]; }};
    const auto messages = visit_file(path, visitor);
    if (messages) {
        file.messages = *messages;
    } else {
        file.error = messages.error();
    }
    survey.files.push_back(std::move(file));
}

}  // namespace

Survey survey(std::span<const std::filesystem::path> files, const std::optional<Wanted::Round>& round) {
    Survey survey;
    for (const std::filesystem::path& file : files) {
        look_into(survey, file, round);
    }
    for (RunSurvey& run : survey.runs) {
        number_members_by_file(run.forecast);
    }
    return survey;
}

}  // namespace gloam::weather
