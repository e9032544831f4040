#include "weather/route_steps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "weather/averages.hpp"
#include "weather/step_notes.hpp"

namespace gloam::weather {
namespace {

using Key = std::tuple<std::optional<int>, Instant, Instant>;
using Steps = std::map<Key, RouteStep>;

Key key_of(const Field& field) {
    return {field.member, field.from, field.to};
}

/// From the ground up: by falling pressure, or by band.
bool is_below(const Field* one, const Field* other) {
    return one->level.band ? one->level.band < other->level.band
                           : one->level.pressure_pa > other->level.pressure_pa;
}

bool is_height(const Field& field) {
    return field.quantity == Quantity::kGeopotentialHeight && field.time_kind == TimeKind::kInstant &&
           field.level.kind == LevelKind::kPressure;
}

bool is_bound(const RouteReading& reading, const Field& field) {
    const auto kind = field.level.kind;
    return reading.level == LevelKind::kCloudLayer && field.quantity == Quantity::kPressure &&
           field.time_kind == reading.time && field.level.band &&
           (kind == LevelKind::kCloudBase || kind == LevelKind::kCloudTop);
}

/// The fields that belong to the route and lie on the grid of its first cover; the others are counted.
std::vector<const Field*> on_one_grid(const RouteReading& reading, std::span<const Field* const> fields,
                                      std::vector<std::string>& notes) {
    const auto is_cover = [&](const Field* field) { return reads(reading, *field); };
    const auto first = std::ranges::find_if(fields, is_cover);
    std::vector<const Field*> chosen;
    std::size_t other_grid = 0;
    for (const Field* field : fields) {
        if (first != fields.end() && (is_cover(field) || is_height(*field) || is_bound(reading, *field))) {
            const bool same = same_grid(field->grid, (*first)->grid);
            other_grid += same ? 0U : 1U;
            if (same) {
                chosen.push_back(field);
            }
        }
    }
    if (other_grid > 0) {
        notes.push_back(fmt::format("left out: {} on another grid", fields_in_words(other_grid)));
    }
    return chosen;
}

void add_bounds(const RouteReading& reading, std::span<const Field* const> fields, Steps& steps) {
    for (const Field* field : fields) {
        const auto step = steps.find(key_of(*field));
        if (is_bound(reading, *field) && step != steps.end()) {
            CloudBounds& bounds = step->second.bounds[index_of(*field->level.band)];
            (field->level.kind == LevelKind::kCloudBase ? bounds.base : bounds.top) = field;
        }
    }
}

void add_heights(std::span<const Field* const> fields, Steps& steps) {
    std::map<std::pair<std::optional<int>, Instant>, std::vector<const Field*>> heights;
    for (const Field* field : fields) {
        if (is_height(*field)) {
            heights[{field->member, field->to}].push_back(field);
        }
    }
    for (auto& [key, step] : steps) {
        step.heights = heights[{step.member, step.to}];
        std::ranges::sort(step.heights, is_below);
    }
}

Steps group(const RouteReading& reading, std::span<const Field* const> fields) {
    Steps steps;
    for (const Field* field : fields) {
        if (reads(reading, *field)) {
            RouteStep& step = steps[key_of(*field)];
            step.member = field->member;
            step.from = field->from;
            step.to = field->to;
            step.cover.push_back(field);
        }
    }
    for (auto& [key, step] : steps) {
        std::ranges::sort(step.cover, is_below);
    }
    add_bounds(reading, fields, steps);
    add_heights(fields, steps);
    return steps;
}

std::optional<Band> missing_band(const RouteStep& step) {
    for (const Band band : kBands) {
        const auto is_in_band = [band](const Field* field) {
            return field->level.band.value_or(band_of(field->level.pressure_pa)) == band;
        };
        if (std::ranges::none_of(step.cover, is_in_band)) {
            return band;
        }
    }
    return std::nullopt;
}

/// Takes out the steps that lack one of the three bands: absent cloud is not clear sky.
void drop_steps_without_band(const RouteReading& reading, std::vector<RouteStep>& steps,
                             std::vector<std::string>& notes) {
    std::erase_if(steps, [&](const RouteStep& step) {
        const auto missing = missing_band(step);
        if (missing) {
            notes.push_back(fmt::format(
                "{} is left out: it has no {} {} the {} layer", name_of(step), name_of(reading.quantity),
                reading.level == LevelKind::kPressure ? "on any level of" : "of", name_of(*missing)));
        }
        return missing.has_value();
    });
}

}  // namespace

std::vector<RouteStep> steps_for(const RouteReading& reading, std::span<const Field* const> fields,
                                 std::vector<std::string>& notes) {
    std::vector<RouteStep> steps;
    for (auto& [key, step] : group(reading, on_one_grid(reading, fields, notes))) {
        steps.push_back(std::move(step));
    }
    if (reading.level != LevelKind::kWholeAtmosphere) {
        drop_steps_without_band(reading, steps, notes);
    }
    if (reading.level == LevelKind::kPressure) {
        note_missing_levels(steps, notes);
    }
    note_missing_times(steps, notes);
    note_gaps(steps, notes);
    take_off_earlier_parts(steps);
    return steps;
}

}  // namespace gloam::weather
