#pragma once

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

#include "support/synthetic_grib.hpp"
#include "weather/layers.hpp"

namespace gloam::weather {

using synthetic::cover_on_levels;
using synthetic::message;

/// Value at a point that must have one; NaN, which equals nothing, if it has none.
inline double value_of(const Field& field, geo::LatLon point) {
    return value_at(field, point).value_or(std::numeric_limits<double>::quiet_NaN());
}

/// The grid of a field that must be regular in latitude and longitude.
inline const RegularGrid& regular(const Field& field) {
    return std::get<RegularGrid>(field.grid);
}

/// Reads bytes that must be good.
inline Forecast read(const synthetic::Bytes& bytes) {
    auto forecast = read_grib(bytes, "synthetic.grib2");
    if (!forecast) {
        throw std::runtime_error(to_text(forecast.error()));
    }
    return *std::move(forecast);
}

/// Layers of bytes that must hold some.
inline LayeredForecast layers(const synthetic::Bytes& bytes) {
    auto layered = layers_of(read(bytes));
    if (!layered) {
        throw std::runtime_error(to_text(layered.error()));
    }
    return *std::move(layered);
}

/// The error of bytes that must be refused.
inline Error refusal(const synthetic::Bytes& bytes) {
    const auto forecast = read_grib(bytes, "synthetic.grib2");
    return forecast ? Error{ErrorKind::kInternal, "was read without an error", {}, {}} : forecast.error();
}

inline Instant at(std::string_view text) {
    return parse_rfc3339(text).value();
}

}  // namespace gloam::weather
