#include "weather/grib_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gloam::weather {
namespace {

constexpr double kMissing =
    -1.0e100;  // impossible for anything in the air; the decoder writes it where the bitmap says so

/// Values accepted of a quantity, in our unit. Cover has 1 % of slack for packing, and a little for float
/// rounding.
struct Range {
    double least;
    double most;
};
constexpr Range kCoverRange{-0.010001, 1.010001};
constexpr Range kHeightRange_m{-2.0e3, 100.0e3};

std::string impossible_value(Quantity quantity, double value) {
    return quantity == Quantity::kCloudCover
               ? fmt::format("a cloud cover of {:.4g} % is impossible", 100.0 * value)
               : fmt::format("a geopotential height of {:.6g} m is impossible", value);
}

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
    const bool cover = field.quantity == Quantity::kCloudCover;
    const Range range = cover ? kCoverRange : kHeightRange_m;
    field.values.assign(cells, 0.0F);
    std::size_t clamped = 0;
    for (std::size_t cell = 0; cell < cells; ++cell) {
        const double raw = packed[order.place_of(cell / order.columns, cell % order.columns)];
        if (raw == kMissing) {
            mask(field, cell);
            continue;
        }
        const double value = raw * to_our_unit;
        if (!(value >= range.least && value <= range.most)) {  // NaN lands here too
            return tl::unexpected(impossible_value(field.quantity, value));
        }
        const double kept = cover ? std::clamp(value, 0.0, 1.0) : value;
        clamped += kept != value ? 1U : 0U;
        field.values[cell] = static_cast<float>(kept);
    }
    return clamped;
}

}  // namespace gloam::weather
