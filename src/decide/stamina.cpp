#include "decide/stamina.hpp"

#include <algorithm>
#include <limits>

namespace gloam::decide {
namespace {

/// V of the mornings from one on, by starts left, from V of the mornings behind it.
std::vector<double> with_morning(const MorningAhead& morning, const std::vector<double>& later, double cost) {
    std::vector<double> values(later.size(), 0.0);
    for (std::size_t starts = 1; starts < later.size(); ++starts) {
        for (const auto& [odds, probability] : morning) {
            values[starts] += probability * std::max(later[starts], odds - cost + later[starts - 1]);
        }
    }
    return values;
}

/// V of `ahead` by starts left, from none to `starts`.
std::vector<double> values_by_starts(std::span<const MorningAhead> ahead, int starts, double cost) {
    // More starts than mornings are worth no more than one for each.
    const auto useful = std::min(static_cast<std::size_t>(std::max(starts, 0)), ahead.size());
    std::vector<double> values(useful + 1, 0.0);
    for (std::size_t i = ahead.size(); i-- > 0;) {
        values = with_morning(ahead[i], values, cost);
    }
    return values;
}

}  // namespace

MorningAhead usual_morning() {
    return {{0.1, 0.40}, {0.3, 0.35}, {0.6, 0.25}};
}

double value_of(std::span<const MorningAhead> ahead, int starts, double cost) {
    return values_by_starts(ahead, starts, cost).back();
}

double start_threshold(std::span<const MorningAhead> after_today, int starts, double cost) {
    if (starts <= 0) {
        return std::numeric_limits<double>::infinity();
    }
    return cost + value_of(after_today, starts, cost) - value_of(after_today, starts - 1, cost);
}

}  // namespace gloam::decide
