#pragma once

#include <stdexcept>
#include <vector>

#include "weather/layers.hpp"

/// Fields made by hand, for forecasts that no file has to hold. All synthetic, on four cells.
namespace gloam::weather {

inline const Grid kFourCells =
    RegularGrid{.first = {60.0, 0.0}, .lat_step_deg = -1.0, .lon_step_deg = 1.0, .rows = 2, .columns = 2};

/// An hour of 2025-01-29, UTC.
inline Instant hour(int of_day) {
    return parse_rfc3339("2025-01-29T00:00:00Z").value() + std::chrono::hours(of_day);
}

/// The same value everywhere, at 06 UTC.
inline Field made(Quantity quantity, const Level& level, double value) {
    Field field;
    field.quantity = quantity;
    field.level = level;
    field.from = field.to = hour(6);
    field.grid = kFourCells;
    field.values.assign(4, static_cast<float>(value));
    field.origin = {.file = "synthetic"};
    return field;
}

inline Field at_hour(int of_day, Field field) {
    field.from = field.to = hour(of_day);
    return field;
}

inline Field over_hours(int from, int to, Field field) {
    field.time_kind = TimeKind::kAverage;
    field.from = hour(from);
    field.to = hour(to);
    return field;
}

inline Field of_member(int member, Field field) {
    field.member = member;
    return field;
}

/// Without a value in this cell.
inline Field masked(std::size_t cell, Field field) {
    field.present.resize(field.values.size(), 1);
    field.present[cell] = 0;
    field.values[cell] = 0.0F;
    return field;
}

inline Field total_cover(double cover) {
    return made(Quantity::kCloudCover, {.kind = LevelKind::kWholeAtmosphere}, cover);
}
inline Field cover_of(Band band, double cover) {
    return made(Quantity::kCloudCover, {.kind = LevelKind::kCloudLayer, .band = band}, cover);
}
inline Field base_of(Band band, double pressure_pa) {
    return made(Quantity::kPressure, {.kind = LevelKind::kCloudBase, .band = band}, pressure_pa);
}
inline Field top_of(Band band, double pressure_pa) {
    return made(Quantity::kPressure, {.kind = LevelKind::kCloudTop, .band = band}, pressure_pa);
}
inline Field on_level(Quantity quantity, double pressure_pa, double value) {
    return made(quantity, {.kind = LevelKind::kPressure, .pressure_pa = pressure_pa}, value);
}

using Fields = std::vector<Field>;

/// Low, middle and high cloud.
inline Fields three_layers(double low, double middle, double high) {
    return {cover_of(Band::kLow, low), cover_of(Band::kMiddle, middle), cover_of(Band::kHigh, high)};
}

/// The same quantity on one level of each band.
inline Fields three_levels(Quantity quantity, double low, double middle, double high) {
    return {on_level(quantity, 850e2, low), on_level(quantity, 500e2, middle),
            on_level(quantity, 300e2, high)};
}

/// Every field changed alike.
template <class Change>
Fields each(Fields fields, const Change& change) {
    for (Field& field : fields) {
        field = change(std::move(field));
    }
    return fields;
}

inline Forecast together(std::initializer_list<Fields> parts) {
    Forecast forecast;
    int message = 0;
    for (const Fields& part : parts) {
        for (const Field& field : part) {
            forecast.fields.push_back(field);
            forecast.fields.back().origin.message = ++message;
        }
    }
    return forecast;
}

/// Layers of a forecast that must hold some.
inline LayeredForecast layers_in(std::initializer_list<Fields> parts) {
    auto layered = layers_of(together(parts));
    if (!layered) {
        throw std::runtime_error(to_text(layered.error()));
    }
    return *std::move(layered);
}

inline const LayerField& layer_of(const LayeredForecast& layered, Band band, std::size_t step = 0) {
    return layered.members.at(0).steps.at(step).bands.at(index_of(band));
}

}  // namespace gloam::weather
