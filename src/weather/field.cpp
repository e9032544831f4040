#include "weather/field.hpp"

#include <fmt/format.h>

namespace gloam::weather {

std::string to_text(const FieldOrigin& origin) {
    const std::string text =
        origin.message > 0 ? fmt::format("{}, message {}", origin.file, origin.message) : origin.file;
    return origin.field > 1 ? fmt::format("{}, field {}", text, origin.field) : text;
}

std::string name_of(const FieldHeader& field) {
    const std::string name = fmt::format("{} {}", name_of(field.quantity), to_text(field.level));
    return field.aerosol ? fmt::format("{} ({})", name, to_text(*field.aerosol)) : name;
}

std::string fields_in_words(std::size_t count) {
    return fmt::format("{} field{}", count, count == 1 ? "" : "s");
}

std::optional<double> value_at(const Field& field, geo::LatLon point) {
    const auto weights = weights_at(field.grid, point);
    if (!weights) {
        return std::nullopt;
    }
    double value = 0.0;
    for (std::size_t i = 0; i < weights->cell.size(); ++i) {
        const std::size_t cell = weights->cell[i];
        if (weights->weight[i] > 0.0 && !has_value(field, cell)) {
            return std::nullopt;
        }
        value += weights->weight[i] * static_cast<double>(field.values[cell]);
    }
    return value;
}

}  // namespace gloam::weather
