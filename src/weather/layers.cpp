#include "weather/layers.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "weather/layer_step.hpp"
#include "weather/step_levels.hpp"

namespace gloam::weather {
namespace {

bool is_cover(const Field& field) {
    return field.quantity == Quantity::kCloudCover;
}

bool is_average_cover(const Field& field) {
    return is_cover(field) && field.time_kind != TimeKind::kInstant;
}

void note_absent_columns(const LayerStep& step, std::vector<std::string>& notes) {
    const auto absent = std::ranges::count(step.present, std::uint8_t{0});
    if (absent > 0) {
        notes.push_back(fmt::format("at {} cloud cover is missing in {} of {} columns",
                                    to_rfc3339_utc(step.valid), absent, step.present.size()));
    }
}

/// Cover fields that the route does not read, so that nobody looks for them in the layers.
void note_other_cover(LayerRoute route, const Forecast& forecast, std::vector<std::string>& notes) {
    const auto count = [&forecast](auto&& is_it) { return std::ranges::count_if(forecast.fields, is_it); };
    const auto averages = count(is_average_cover);
    const auto other_kind = count([route](const Field& field) {
        const bool total = field.level.kind == LevelKind::kWholeAtmosphere;
        const bool read =
            field.level.kind == LevelKind::kPressure || (total && route == LayerRoute::kTotalOnly);
        return is_cover(field) && field.time_kind == TimeKind::kInstant && !read;
    });
    if (averages > 0) {
        notes.push_back(fmt::format("{} fields of cover over a span of time are left out", averages));
    }
    if (other_kind > 0) {
        notes.push_back(
            fmt::format("{} fields of total, convective or boundary-layer cover are not added to the "
                        "cover on levels",
                        other_kind));
    }
}

void note_heights(LayeredForecast& layered) {
    if (layered.route == LayerRoute::kTotalOnly) {
        layered.notes.emplace_back(
            "only total cloud cover is there: which layer holds it is unknown, and each is "
            "given it at its usual height");
    } else if (layered.heights_from_standard_atmosphere) {
        layered.notes.emplace_back(
            "heights of the levels are those of the standard atmosphere, for the files hold "
            "no geopotential heights at a step or more");
    }
}

LayeredForecast build(LayerRoute route, const std::vector<StepLevels>& steps,
                      std::vector<std::string> notes) {
    LayeredForecast layered;
    layered.route = route;
    layered.grid = steps.front().cover.front()->grid;
    layered.notes = std::move(notes);
    for (const StepLevels& levels : steps) {
        if (layered.members.empty() || layered.members.back().member != levels.member) {
            layered.members.push_back({levels.member, {}});
        }
        const auto& added = layered.members.back().steps.emplace_back(layer_step(route, levels));
        note_absent_columns(added, layered.notes);
        layered.heights_from_standard_atmosphere |= levels.heights.empty();
    }
    note_heights(layered);
    return layered;
}

tl::unexpected<Error> nothing_to_use(const Forecast& forecast, const std::vector<std::string>& notes) {
    const bool instants = std::ranges::any_of(
        forecast.fields, [](const Field& field) { return is_cover(field) && !is_average_cover(field); });
    if (!instants && std::ranges::any_of(forecast.fields, is_average_cover)) {
        return fail(ErrorKind::kUnsupported,
                    "the forecast holds cloud cover only as averages over a span of time",
                    to_text(forecast.fields.front().origin),
                    "give the instantaneous cover on pressure levels of the same run");
    }
    return fail(ErrorKind::kIncomplete,
                notes.empty() ? "the forecast holds no cloud cover that can be used"
                              : fmt::format("the forecast holds no cloud cover that can be used: {}",
                                            fmt::join(notes, "; ")),
                forecast.fields.empty() ? std::string() : forecast.fields.front().origin.file,
                "give a file with cloud cover on pressure levels (TCDC at 50 to 1000 hPa of GFS), or with "
                "total cover");
}

}  // namespace

Result<LayeredForecast> layers_of(const Forecast& forecast) {
    std::vector<std::string> notes;
    for (const LayerRoute route : {LayerRoute::kCoverOnLevels, LayerRoute::kTotalOnly}) {
        const std::vector<StepLevels> steps = steps_for(route, forecast, notes);
        if (!steps.empty()) {
            note_other_cover(route, forecast, notes);
            return build(route, steps, std::move(notes));
        }
    }
    return nothing_to_use(forecast, notes);
}

}  // namespace gloam::weather
