#include "weather/layers.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "weather/fields_once.hpp"
#include "weather/layer_step.hpp"
#include "weather/route_steps.hpp"

namespace gloam::weather {
namespace {

bool is_cover(const Field& field) {
    return field.quantity == Quantity::kCloudCover;
}

bool is_instant(const Field& field) {
    return field.time_kind == TimeKind::kInstant;
}

void note_absent_columns(const LayerStep& step, std::vector<std::string>& notes) {
    const auto absent = std::ranges::count(step.present, std::uint8_t{0});
    if (absent > 0) {
        notes.push_back(fmt::format("at {} cloud cover is missing in {} of {} columns",
                                    to_rfc3339_utc(step.to), absent, step.present.size()));
    }
}

/// Fields that tell of cloud but that the route does not read, so that nobody looks for them in the layers.
void note_unused(const RouteReading& reading, std::span<const Field* const> fields,
                 std::vector<std::string>& notes) {
    const auto note = [&](std::string_view what, auto&& is_it) {
        const auto count = static_cast<std::size_t>(std::ranges::count_if(
            fields, [&](const Field* field) { return !reads(reading, *field) && is_it(*field); }));
        if (count > 0) {
            notes.push_back(
                fmt::format("not used beside {}: {} of {}", name_of(reading), fields_in_words(count), what));
        }
    };
    const auto is_at = [](const Field& field, LevelKind kind) {
        return is_cover(field) && is_instant(field) && field.level.kind == kind;
    };
    note("cover on levels", [&](const Field& field) { return is_at(field, LevelKind::kPressure); });
    note("low, middle and high cloud",
         [&](const Field& field) { return is_at(field, LevelKind::kCloudLayer); });
    note("humidity on levels", [](const Field& field) {
        return field.quantity == Quantity::kRelativeHumidity && field.level.kind == LevelKind::kPressure;
    });
    note("cover over a span of time",
         [](const Field& field) { return is_cover(field) && !is_instant(field); });
    note("total, convective, boundary-layer or fog cover", [&](const Field& field) {
        return is_at(field, LevelKind::kWholeAtmosphere) || is_at(field, LevelKind::kConvective) ||
               is_at(field, LevelKind::kBoundaryLayer) || is_at(field, LevelKind::kSurface);
    });
}

void note_heights(LayeredForecast& layered) {
    if (layered.route == LayerRoute::kTotalOnly) {
        layered.notes.emplace_back(
            "only total cloud cover is there: which layer holds it is unknown, and each is "
            "given it at its usual height");
    } else if (layered.usual_heights) {
        layered.notes.emplace_back(
            "the files do not say, at a step or more, how high low, middle and high cloud lie: each is put "
            "at its usual height");
    }
    if (layered.heights_from_standard_atmosphere) {
        layered.notes.emplace_back(
            "heights of the levels are those of the standard atmosphere, for the files hold "
            "no geopotential heights at a step or more");
    }
}

/// Sets what is not known about the heights of a step.
void tell_heights(const RouteReading& reading, const RouteStep& step, LayeredForecast& layered) {
    const auto is_known = [](const CloudBounds& bounds) { return bounds.base && bounds.top; };
    const bool on_levels = reading.level == LevelKind::kPressure;
    layered.usual_heights |= !on_levels && !std::ranges::all_of(step.bounds, is_known);
    layered.heights_from_standard_atmosphere |=
        step.heights.empty() && (on_levels || std::ranges::any_of(step.bounds, is_known));
}

LayeredForecast build(const RouteReading& reading, const std::vector<RouteStep>& steps,
                      std::vector<std::string> notes) {
    LayeredForecast layered;
    layered.route = reading.route;
    layered.grid = steps.front().cover.front()->grid;
    layered.notes = std::move(notes);
    for (const RouteStep& step : steps) {
        if (layered.members.empty() || layered.members.back().member != step.member) {
            layered.members.push_back({step.member, {}});
        }
        const auto& added = layered.members.back().steps.emplace_back(layer_step(reading, step));
        note_absent_columns(added, layered.notes);
        tell_heights(reading, step, layered);
    }
    note_heights(layered);
    return layered;
}

tl::unexpected<Error> nothing_to_use(const Forecast& forecast, const std::vector<std::string>& notes) {
    const bool instants = std::ranges::any_of(
        forecast.fields, [](const Field& field) { return is_cover(field) && is_instant(field); });
    if (!instants && std::ranges::any_of(forecast.fields, is_cover)) {
        return fail(ErrorKind::kUnsupported,
                    "the forecast holds cloud cover only over spans of time, and not of all three layers or "
                    "of the whole",
                    to_text(forecast.fields.front().origin),
                    "give the instantaneous cover on pressure levels of the same run");
    }
    return fail(
        ErrorKind::kIncomplete,
        notes.empty()
            ? "the forecast holds no cloud cover that can be used"
            : fmt::format("the forecast holds no cloud cover that can be used: {}", fmt::join(notes, "; ")),
        forecast.fields.empty() ? std::string() : forecast.fields.front().origin.file,
        "give a file with cloud cover or humidity on pressure levels (TCDC or RH at 50 to 1000 hPa of "
        "GFS), with low, middle and high cloud, or with total cover");
}

}  // namespace

Result<LayeredForecast> layers_of(const Forecast& forecast) {
    std::vector<std::string> notes;
    const auto fields = fields_once(forecast, notes);
    if (!fields) {
        return tl::unexpected(fields.error());
    }
    for (const RouteReading& reading : kRouteReadings) {
        const std::vector<RouteStep> steps = steps_for(reading, *fields, notes);
        if (!steps.empty()) {
            note_unused(reading, *fields, notes);
            return build(reading, steps, std::move(notes));
        }
    }
    return nothing_to_use(forecast, notes);
}

}  // namespace gloam::weather
