#include "weather/step_levels.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <functional>
#include <iterator>
#include <map>
#include <set>
#include <utility>

namespace gloam::weather {
namespace {

/// Fields of one step by pressure, highest pressure first.
using ByPressure = std::map<double, const Field*, std::greater<>>;
struct Step {
    ByPressure cover;
    ByPressure heights;
};
using Steps = std::map<std::pair<std::optional<int>, Instant>, Step>;

bool is_wanted_cover(LayerRoute route, const Field& field) {
    const auto level = route == LayerRoute::kTotalOnly ? LevelKind::kWholeAtmosphere : LevelKind::kPressure;
    return field.quantity == Quantity::kCloudCover && field.time_kind == TimeKind::kInstant &&
           field.level.kind == level;
}

bool is_height(const Field& field) {
    return field.quantity == Quantity::kGeopotentialHeight && field.time_kind == TimeKind::kInstant &&
           field.level.kind == LevelKind::kPressure;
}

/// Fields that are wanted but cannot be put beside the others.
struct LeftOut {
    int other_grid = 0;
    int repeated = 0;
};

Steps group(LayerRoute route, const Forecast& forecast, LeftOut& left_out) {
    Steps steps;
    const auto first = std::ranges::find_if(
        forecast.fields, [route](const Field& field) { return is_wanted_cover(route, field); });
    for (const Field& field : forecast.fields) {
        const bool cover = is_wanted_cover(route, field);
        if (first == forecast.fields.end() || (!cover && !is_height(field))) {
            continue;
        }
        if (!same_grid(field.grid, first->grid)) {
            ++left_out.other_grid;
            continue;
        }
        Step& step = steps[{field.member, field.to}];
        ByPressure& levels = cover ? step.cover : step.heights;
        left_out.repeated += levels.emplace(field.level.pressure_pa, &field).second ? 0 : 1;
    }
    std::erase_if(steps, [](const auto& entry) { return entry.second.cover.empty(); });
    return steps;
}

std::string step_name(const Steps::key_type& key) {
    const std::string at = "the step valid at " + to_rfc3339_utc(key.second);
    return key.first ? fmt::format("{} of member {}", at, *key.first) : at;
}

std::set<double, std::greater<>> all_levels(const Steps& steps) {
    std::set<double, std::greater<>> levels;
    for (const auto& [key, step] : steps) {
        for (const auto& [pressure_pa, field] : step.cover) {
            levels.insert(pressure_pa);
        }
    }
    return levels;
}

/// Names the levels that other steps have and this one lacks.
void note_missing_levels(const Steps& steps, std::vector<std::string>& notes) {
    const auto levels = all_levels(steps);
    for (const auto& [key, step] : steps) {
        std::vector<double> missing_hpa;
        for (const double pressure_pa : levels) {
            if (!step.cover.contains(pressure_pa)) {
                missing_hpa.push_back(pressure_pa / 100.0);
            }
        }
        if (!missing_hpa.empty()) {
            notes.push_back(fmt::format("{} lacks cloud cover at {} hPa and is used without", step_name(key),
                                        fmt::join(missing_hpa, ", ")));
        }
    }
}

bool has_band(const Step& step, Band band) {
    return std::ranges::any_of(step.cover,
                               [band](const auto& level) { return band_of(level.first) == band; });
}

/// Takes out the steps without any level in one of the three bands: absent cloud is not clear sky.
void drop_steps_without_band(Steps& steps, std::vector<std::string>& notes) {
    std::erase_if(steps, [&notes](const auto& entry) {
        for (const Band band : kBands) {
            if (!has_band(entry.second, band)) {
                notes.push_back(
                    fmt::format("{} is left out: it has no cloud cover on any level of the {} layer",
                                step_name(entry.first), name_of(band)));
                return true;
            }
        }
        return false;
    });
}

/// Names the members that lack a time which others have.
void note_missing_times(const Steps& steps, std::vector<std::string>& notes) {
    std::set<std::optional<int>> members;
    std::set<Instant> times;
    for (const auto& [key, step] : steps) {
        members.insert(key.first);
        times.insert(key.second);
    }
    for (const auto& member : members) {
        for (const Instant time : times) {
            if (!steps.contains({member, time})) {
                notes.push_back(step_name({member, time}) + " is missing; other members have it");
            }
        }
    }
}

std::vector<const Field*> fields_by_pressure(const ByPressure& levels) {
    std::vector<const Field*> fields;
    std::ranges::transform(levels, std::back_inserter(fields),
                           [](const auto& level) { return level.second; });
    return fields;
}

void note_left_out(const LeftOut& left_out, std::vector<std::string>& notes) {
    if (left_out.other_grid > 0) {
        notes.push_back(fmt::format("{} fields on another grid are left out", left_out.other_grid));
    }
    if (left_out.repeated > 0) {
        notes.push_back(fmt::format("{} fields that are there twice are left out; the first of each is used",
                                    left_out.repeated));
    }
}

}  // namespace

std::vector<StepLevels> steps_for(LayerRoute route, const Forecast& forecast,
                                  std::vector<std::string>& notes) {
    LeftOut left_out;
    Steps steps = group(route, forecast, left_out);
    note_left_out(left_out, notes);
    if (route == LayerRoute::kCoverOnLevels) {
        drop_steps_without_band(steps, notes);
        note_missing_levels(steps, notes);
    }
    note_missing_times(steps, notes);
    std::vector<StepLevels> found;
    for (const auto& [key, step] : steps) {
        found.push_back(
            {key.first, key.second, fields_by_pressure(step.cover), fields_by_pressure(step.heights)});
    }
    return found;
}

}  // namespace gloam::weather
