#include "weather/near_surface.hpp"

#include <algorithm>
#include <cmath>

#include "weather/served_times.hpp"

namespace gloam::weather {
namespace {

constexpr double kScreen_m = 2.0;
constexpr double kMast_m = 10.0;

bool is_above_ground(const Field& field, double height_m) {
    return field.level.kind == LevelKind::kAboveGround && field.level.height_m == height_m;
}

/// Wind is the same wind if all but its component is the same.
bool is_other_component(const Field& east, const Field& north) {
    return north.quantity == Quantity::kWindNorth && north.level == east.level &&
           north.member == east.member && north.time_kind == east.time_kind && north.from == east.from &&
           north.to == east.to;
}

class Reading {
  public:
    Reading(const Forecast& forecast, geo::LatLon place) : forecast_(forecast), place_(place) {}

    void take(const Field& field) {
        switch (field.quantity) {
            case Quantity::kTemperature:
                take_temperature(field);
                return;
            case Quantity::kWindEast:
                take_wind(field);
                return;
            case Quantity::kVisibility:
                least(found_.visibility_m, value_at(field, place_));
                return;
            case Quantity::kGust:
                most(found_.gust_m_s, value_at(field, place_));
                return;
            case Quantity::kPrecipitation:
                most(found_.precipitation_kg_m2, value_at(field, place_));
                return;
            case Quantity::kPrecipitationRate:
                most(found_.precipitation_rate_kg_m2_s, value_at(field, place_));
                return;
            case Quantity::kCape:
                most(found_.cape_j_kg, value_at(field, place_));
                return;
            case Quantity::kThunder:
                most(found_.thunder, value_at(field, place_));
                return;
            default:
                return;
        }
    }

    const NearSurface& found() const { return found_; }

  private:
    static void most(std::optional<double>& kept, std::optional<double> value) {
        kept = value ? std::max(kept.value_or(*value), *value) : kept;
    }
    static void least(std::optional<double>& kept, std::optional<double> value) {
        kept = value ? std::min(kept.value_or(*value), *value) : kept;
    }

    void take_temperature(const Field& field) {
        if (is_above_ground(field, kScreen_m)) {
            least(found_.least_temperature_k, value_at(field, place_));
            most(found_.most_temperature_k, value_at(field, place_));
        }
    }

    void take_wind(const Field& east) {
        const auto north = std::ranges::find_if(
            forecast_.fields, [&](const Field& field) { return is_other_component(east, field); });
        if (!is_above_ground(east, kMast_m) || north == forecast_.fields.end()) {
            return;
        }
        const auto u_m_s = value_at(east, place_);
        const auto v_m_s = value_at(*north, place_);
        if (u_m_s && v_m_s) {
            most(found_.wind_m_s, std::hypot(*u_m_s, *v_m_s));
        }
    }

    const Forecast& forecast_;
    geo::LatLon place_;
    NearSurface found_;
};

}  // namespace

NearSurface near_surface(const Forecast& forecast, geo::LatLon place, Instant from, Instant to) {
    Reading reading(forecast, place);
    for (const Field& field : forecast.fields) {
        if (field.from <= to + kStepReach && field.to >= from - kStepReach) {
            reading.take(field);
        }
    }
    return reading.found();
}

}  // namespace gloam::weather
