#include "weather/grib/values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gloam::weather {
namespace {

constexpr double kMissing =
    -1.0e100;  // impossible for anything in the air; the decoder writes it where the bitmap says so

/// Marks one cell as missing; the mask comes into being with the first such cell.
void mask(Field& field, std::size_t cell) {
    if (field.present.empty()) {
        field.present.assign(field.values.size(), 1);
    }
    field.present[cell] = 0;
}

}  // namespace

tl::expected<std::size_t, std::string> fill_values(Field& field, GribHandle& handle, const ScanOrder& order,
                                                   double to_our_unit) {
    const std::size_t cells = order.rows * order.columns;
    if (!handle.set("missingValue", kMissing) || handle.size_of("values") != cells) {
        return tl::unexpected(fmt::format("the message holds {} values for a grid of {} x {} points",
                                          handle.size_of("values"), order.columns, order.rows));
    }
    const std::vector<double> packed = handle.reals("values");
    if (packed.empty()) {
        return tl::unexpected<std::string>("the values cannot be unpacked");
    }
    const QuantityFacts& facts = facts_of(field.quantity);
    field.values.assign(cells, 0.0F);
    std::size_t clamped = 0;
    for (std::size_t cell = 0; cell < cells; ++cell) {
        const double raw = packed[order.place_of(cell / order.columns, cell % order.columns)];
        if (raw == kMissing) {
            mask(field, cell);
            continue;
        }
        const double value = raw * to_our_unit;
        if (!(value >= facts.least && value <= facts.most)) {  // NaN lands here too
            return tl::unexpected(impossible_value(field.quantity, value));
        }
        const double kept = std::clamp(value, facts.floor, facts.ceiling);
        clamped += kept != value ? 1U : 0U;
        field.values[cell] = static_cast<float>(kept);
    }
    return clamped;
}

}  // namespace gloam::weather
