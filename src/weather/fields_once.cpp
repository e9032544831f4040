#include "weather/fields_once.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace gloam::weather {
namespace {

/// Largest difference of values of one thing; absent for quantities that no layer is made of.
std::optional<double> tolerance_of(Quantity quantity) {
    switch (quantity) {
        case Quantity::kCloudCover:
        case Quantity::kRelativeHumidity:
            return 0.01;
        case Quantity::kGeopotentialHeight:
            return 5.0;
        case Quantity::kPressure:
            return 100.0;
        default:
            return std::nullopt;
    }
}

using Key = std::tuple<Quantity, Level, TimeKind, Instant, Instant, std::optional<int>>;

Key key_of(const Field& field) {
    return {field.quantity, field.level, field.time_kind, field.from, field.to, field.member};
}

/// How far two fields of one grid lie apart.
struct Difference {
    double largest = 0.0;
    std::size_t one_sided = 0;  ///< cells in which only one has a value
};

Difference difference_of(const Field& one, const Field& other) {
    Difference difference;
    for (std::size_t cell = 0; cell < one.values.size(); ++cell) {
        if (has_value(one, cell) != has_value(other, cell)) {
            ++difference.one_sided;
        } else if (has_value(one, cell)) {
            difference.largest = std::max(
                difference.largest,
                std::abs(static_cast<double>(one.values[cell]) - static_cast<double>(other.values[cell])));
        }
    }
    return difference;
}

tl::unexpected<Error> contradiction(const Field& one, const Field& other, const Difference& difference) {
    const auto& facts = facts_of(one.quantity);
    const std::string how =
        difference.one_sided > 0
            ? fmt::format("{} cells have a value in one of them alone", difference.one_sided)
            : fmt::format("they differ by up to {:.3g}{}{}", difference.largest,
                          facts.unit.empty() ? "" : " ", facts.unit);
    return fail(
        ErrorKind::kBadInput,
        fmt::format("{} valid at {} is there twice, and {}", name_of(one), to_rfc3339_utc(one.to), how),
        to_text(one.origin) + " and " + to_text(other.origin), "leave one of them out");
}

}  // namespace

Result<std::vector<const Field*>> fields_once(const Forecast& forecast, std::vector<std::string>& notes) {
    std::map<Key, std::vector<const Field*>> met;  // by key, one a grid
    std::vector<const Field*> once;
    std::size_t repeated = 0;
    for (const Field& field : forecast.fields) {
        const auto tolerance = tolerance_of(field.quantity);
        if (!tolerance) {
            continue;
        }
        auto& alike = met[key_of(field)];
        const auto first = std::ranges::find_if(
            alike, [&field](const Field* other) { return same_grid(other->grid, field.grid); });
        if (first == alike.end()) {
            alike.push_back(&field);
            once.push_back(&field);
            continue;
        }
        const Difference difference = difference_of(**first, field);
        if (difference.one_sided > 0 || difference.largest > *tolerance) {
            return contradiction(**first, field, difference);
        }
        ++repeated;
    }
    if (repeated > 0) {
        notes.push_back(
            fmt::format("left out: {} there twice; the first of each is used", fields_in_words(repeated)));
    }
    return once;
}

}  // namespace gloam::weather
