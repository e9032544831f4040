#include "weather/grib/bitmap.hpp"

#include <bit>

#include "weather/grib/octets.hpp"

namespace gloam::weather {
namespace {

constexpr int kNoBitmap2 = 255;  // edition 2, code table 6.0

bool has_value(Octets bits, std::size_t point) {
    return ((std::to_integer<unsigned>(bits[point / 8]) >> (7 - point % 8)) & 1U) != 0;
}

std::optional<std::size_t> count_set(Octets bits, std::size_t points) {
    if (bits.size() < (points + 7) / 8) {
        return std::nullopt;
    }
    std::size_t set = 0;
    const std::size_t words = points / 64;
    for (std::size_t word = 0; word < words; ++word) {
        set += static_cast<std::size_t>(std::popcount(big_endian(bits, 8 * word, 8)));
    }
    for (std::size_t point = 64 * words; point < points; ++point) {
        set += has_value(bits, point) ? 1U : 0U;
    }
    return set;
}

}  // namespace

std::optional<std::size_t> points_with_value(const GribField& field, std::size_t points) {
    if (field.edition == 1) {
        if (field.bitmap.empty()) {
            return points;
        }
        const bool predefined = big_endian(field.bitmap, 4, 2) != 0;
        return predefined ? std::nullopt : count_set(field.bitmap.subspan(6), points);
    }
    const int indicator = std::to_integer<int>(field.bitmap[5]);
    if (indicator == kNoBitmap2) {
        return points;
    }
    return indicator == 0 ? count_set(field.bitmap.subspan(6), points) : std::nullopt;
}

void spread_over_grid(const GribField& field, std::size_t points, double missing,
                      std::vector<double>& values) {
    std::size_t left = values.size();
    values.resize(points);
    for (std::size_t point = points; point-- > 0;) {  // from the back: nothing is overwritten unmoved
        values[point] = has_value(field.bitmap.subspan(6), point) ? values[--left] : missing;
    }
}

}  // namespace gloam::weather
