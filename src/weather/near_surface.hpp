#pragma once

#include <optional>

#include "weather/forecast.hpp"

namespace gloam::weather {

/// The weather near the ground during some hours, to the careful side: of all members and times the worst for
/// people who stand outside. What no field says is absent.
struct NearSurface {
    std::optional<double> least_temperature_k = std::nullopt;  ///< 2 m above the ground
    std::optional<double> most_temperature_k = std::nullopt;
    std::optional<double> wind_m_s = std::nullopt;  ///< greatest mean wind 10 m above the ground
    std::optional<double> gust_m_s = std::nullopt;
    std::optional<double> visibility_m = std::nullopt;         ///< least
    std::optional<double> precipitation_kg_m2 = std::nullopt;  ///< greatest over the span of any one field
    std::optional<double> precipitation_rate_kg_m2_s = std::nullopt;
    std::optional<double> cape_j_kg = std::nullopt;
    std::optional<double> thunder = std::nullopt;  ///< probability, 0..1
};

/// Reads the fields that hold within kStepReach of `from` to `to` at `place`.
NearSurface near_surface(const Forecast& forecast, geo::LatLon place, Instant from, Instant to);

}  // namespace gloam::weather
