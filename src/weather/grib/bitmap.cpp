#include "weather/grib/bitmap.hpp"

#include <bit>

#include "weather/grib/bit_reader.hpp"

namespace gloam::weather {
namespace {

constexpr int kNoBitmap2 = 255;  // edition 2, code table 6.0

std::optional<std::size_t> count_set(Octets bits, std::size_t points) {
    if (bits.size() < (points + 7) / 8) {
        return std::nullopt;
    }
    std::size_t set = 0;
    for (const std::byte octet : bits.first(points / 8)) {
        set += static_cast<std::size_t>(std::popcount(std::to_integer<unsigned>(octet)));
    }
    if (const std::size_t left = points % 8; left > 0) {
        const auto last = std::to_integer<unsigned>(bits[points / 8]);
        set += static_cast<std::size_t>(std::popcount(last >> (8 - left)));
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

std::vector<double> spread_over_grid(const GribField& field, std::span<const double> values,
                                     std::size_t points, double missing) {
    std::vector<double> spread(points, missing);
    BitReader has_value(field.bitmap.subspan(6), 1);
    auto next = values.begin();
    for (double& value : spread) {
        if (has_value.next() == 1) {
            value = *next++;
        }
    }
    return spread;
}

}  // namespace gloam::weather
