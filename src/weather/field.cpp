#include "weather/field.hpp"

#include <fmt/format.h>

#include <cmath>

#include "weather/bilinear.hpp"

namespace gloam::weather {
namespace {

std::string_view name_of(Quantity quantity) {
    return quantity == Quantity::kCloudCover ? "cloud cover" : "geopotential height";
}

std::string name_of(const Level& level) {
    switch (level.kind) {
        case LevelKind::kPressure:
            return fmt::format("at {:g} hPa", level.pressure_pa / 100.0);
        case LevelKind::kWholeAtmosphere:
            return "of the whole atmosphere";
        case LevelKind::kConvective:
            return "of convective cloud";
        case LevelKind::kBoundaryLayer:
            return "of the boundary layer";
    }
    return {};
}

}  // namespace

bool same_grid(const RegularGrid& one, const RegularGrid& other) {
    constexpr double kSlack_deg = 1e-6;
    const auto near = [](double a, double b) { return std::abs(a - b) < kSlack_deg; };
    return one.rows == other.rows && one.columns == other.columns && one.wraps == other.wraps &&
           near(one.first.lat_deg, other.first.lat_deg) && near(one.first.lon_deg, other.first.lon_deg) &&
           near(one.lat_step_deg, other.lat_step_deg) && near(one.lon_step_deg, other.lon_step_deg);
}

std::string to_text(const FieldOrigin& origin) {
    const std::string text =
        origin.message > 0 ? fmt::format("{}, message {}", origin.file, origin.message) : origin.file;
    return origin.field > 1 ? fmt::format("{}, field {}", text, origin.field) : text;
}

std::string name_of(const Field& field) {
    return fmt::format("{} {}", name_of(field.quantity), name_of(field.level));
}

std::optional<double> value_at(const Field& field, geo::LatLon point) {
    const auto weights = weights_at(field.grid, point);
    if (!weights) {
        return std::nullopt;
    }
    double value = 0.0;
    for (std::size_t i = 0; i < weights->cell.size(); ++i) {
        const std::size_t cell = weights->cell[i];
        if (weights->weight[i] > 0.0 && !field.present.empty() && field.present[cell] == 0) {
            return std::nullopt;
        }
        value += weights->weight[i] * static_cast<double>(field.values[cell]);
    }
    return value;
}

}  // namespace gloam::weather
