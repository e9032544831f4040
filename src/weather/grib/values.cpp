#include "weather/grib/values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "weather/grib/bitmap.hpp"
#include "weather/grib/packing.hpp"

namespace gloam::weather {
namespace {

/// Stands where the bitmap says so; no file writes it.
constexpr double kMissing = -1.0e300;

/// In the unit of the file.
constexpr std::array kSentinels{-9999.0, 9.999e20, 2147483647.0, -1.0e100, -999.0, -500.0};

/// The lowest land, the shore of the Dead Sea, lies some 440 m below the sea. Cloud below it is packing noise
/// or a sentinel: DWD writes -500 where there is no convective base. Surfaces of pressure do go down there:
/// that of 1000 hPa lies at -500 m where the pressure at sea level is some 940 hPa.
constexpr float kLowestCloud_m = -450.0F;

/// Equal but for the rounding of the 4-octet numbers and scale factors of a packing.
bool is_sentinel(double raw) {
    return std::ranges::any_of(
        kSentinels, [raw](double sentinel) { return std::abs(raw - sentinel) <= 1e-6 * std::abs(sentinel); });
}

/// What is known of a quantity, in the precision that fields have.
struct Limits {
    explicit Limits(Quantity quantity)
        : least(static_cast<float>(facts_of(quantity).least)),
          most(static_cast<float>(facts_of(quantity).most)),
          floor(static_cast<float>(facts_of(quantity).floor)),
          ceiling(static_cast<float>(facts_of(quantity).ceiling)),
          least_no_sentinel(quantity == Quantity::kCloudHeight ? kLowestCloud_m : least) {}

    float least;
    float most;
    float floor;
    float ceiling;
    float least_no_sentinel;  ///< below it numbers that are customary for "no value" are no values
};

/// Checks values and puts them into a field, row by row: memory that is filled as it is had is touched once.
class Intake {
  public:
    Intake(Field& field, std::size_t cells, double to_our_unit)
        : field_(field), cells_(cells), limits_(field.quantity), to_our_unit_(to_our_unit) {
        field_.values.reserve(cells);
    }

    /// Takes the values of the next row of cells; the first impossible one stops it and is given back, in our
    /// unit.
    std::optional<double> take_row(std::span<const double> raw) {
        std::size_t cell = field_.values.size();
        field_.values.resize(cell + raw.size());
        for (; raw.size() >= kStretch; cell += kStretch, raw = raw.subspan(kStretch)) {
            const auto stretch = raw.first<kStretch>();
            if (!take_plain(cell, stretch)) {
                if (const auto impossible = take_any(cell, stretch)) {
                    return impossible;
                }
            }
        }
        return take_any(cell, raw);
    }

    OddValues odd() const { return odd_; }

  private:
    /// Short, for where values are missing they mostly lie together.
    static constexpr std::size_t kStretch = 16;

    /// Takes a stretch of nothing but values, as nearly all are; false if it is another. Without branches, so
    /// that the compiler takes several cells at a time.
    bool take_plain(std::size_t first_cell, std::span<const double, kStretch> raw) {
        const double factor = to_our_unit_;
        const Limits limits = limits_;
        float* const into = field_.values.data() + first_cell;
        unsigned odd = 0;
        unsigned clamped = 0;
        for (std::size_t i = 0; i < raw.size(); ++i) {
            const auto value = static_cast<float>(raw[i] * factor);
            const float above = value < limits.floor ? limits.floor : value;
            into[i] = above > limits.ceiling ? limits.ceiling : above;
            clamped += static_cast<unsigned>(into[i] != value);
            odd |= static_cast<unsigned>(!(value >= limits.least_no_sentinel)) |
                   static_cast<unsigned>(!(value <= limits.most));
        }
        odd_.clamped += odd == 0 ? clamped : 0;
        return odd == 0;
    }

    /// Takes any stretch; the first impossible value stops it and is given back, in our unit.
    std::optional<double> take_any(std::size_t first_cell, std::span<const double> raw) {
        for (const double value : raw) {
            if (!take(first_cell++, value)) {
                return value * to_our_unit_;
            }
        }
        return std::nullopt;
    }

    /// Takes any value; false if it is impossible.
    bool take(std::size_t cell, double raw) {
        const auto value = static_cast<float>(raw * to_our_unit_);
        const bool possible = value >= limits_.least && value <= limits_.most;  // NaN is not
        const bool sentinel_possible = !possible || value < limits_.least_no_sentinel;
        if (raw == kMissing) {
            mask(cell);
        } else if (sentinel_possible && is_sentinel(raw)) {
            mask(cell);
            ++odd_.sentinels;
        } else if (possible) {
            field_.values[cell] = std::clamp(value, limits_.floor, limits_.ceiling);
            odd_.clamped += field_.values[cell] != value ? 1U : 0U;
        } else {
            return false;
        }
        return true;
    }

    /// The mask comes into being with the first cell that is missing.
    void mask(std::size_t cell) {
        if (field_.present.empty()) {
            field_.present.assign(cells_, 1);
        }
        field_.present[cell] = 0;
        field_.values[cell] = 0.0F;
    }

    Field& field_;
    std::size_t cells_;  ///< of the whole field
    Limits limits_;
    double to_our_unit_;
    OddValues odd_;
};

/// The values of a row of cells: those in the message where they stand there in our order, else put into it
/// in `room`.
std::span<const double> row_of(std::span<const double> packed, const ScanOrder& order, std::size_t row,
                               std::vector<double>& room) {
    if (!order.westward && !order.by_column && !order.back_and_forth) {
        return packed.subspan(order.place_of(row, 0), order.columns);
    }
    for (std::size_t column = 0; column < order.columns; ++column) {
        room[column] = packed[order.place_of(row, column)];
    }
    return room;
}

/// Unpacks one value for each point of the grid, in the order and unit of the file; another number of them,
/// or none, if they cannot be unpacked.
void unpack(const GribField& grib, GribHandle& handle, std::size_t points, std::vector<double>& values) {
    if (!unpack_here(grib, points, values)) {
        handle.set("missingValue", kMissing);
        handle.reals("values", values);
    } else if (values.size() != points) {
        spread_over_grid(grib, points, kMissing, values);
    }
}

}  // namespace

tl::expected<OddValues, std::string> fill_values(Field& field, const GribField& grib, GribHandle& handle,
                                                 const ScanOrder& order, double to_our_unit,
                                                 std::vector<double>& packed) {
    const std::size_t cells = order.rows * order.columns;
    unpack(grib, handle, cells, packed);
    if (packed.size() != cells) {
        return tl::unexpected<std::string>("the values cannot be unpacked");
    }
    Intake intake(field, cells, to_our_unit);
    std::vector<double> room(order.columns);
    for (std::size_t row = 0; row < order.rows; ++row) {
        if (const auto impossible = intake.take_row(row_of(packed, order, row, room))) {
            return tl::unexpected(impossible_value(field.quantity, *impossible));
        }
    }
    return intake.odd();
}

bool is_fraction_called_percent(const Field& field) {
    const bool cover = field.quantity == Quantity::kCloudCover;
    const bool humidity = field.quantity == Quantity::kRelativeHumidity;
    const float one = cover ? 0.0101F : 0.0125F;  // what the file calls 1 %, and slack: air is supersaturated
    constexpr float kHalf = 0.005F;
    constexpr std::size_t kLeastCells = 1000;
    constexpr std::ptrdiff_t kLeastDifferent = 100;  // fewer are steps of percent or tenths of it
    const auto above = [](float limit) { return [limit](float value) { return value > limit; }; };
    if ((!cover && !humidity) || field.values.size() < kLeastCells ||
        std::ranges::any_of(field.values, above(one)) ||
        20 * std::ranges::count_if(field.values, above(kHalf)) < std::ssize(field.values)) {
        return false;
    }
    std::vector<float> values = field.values;
    std::ranges::sort(values);
    return std::ranges::unique(values).begin() - values.begin() >= kLeastDifferent;
}

}  // namespace gloam::weather
