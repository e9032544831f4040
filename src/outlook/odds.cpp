#include "outlook/odds.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/check.hpp"

namespace gloam::outlook {
namespace {

constexpr double kKernelWidth = 6.0;
constexpr double kLeastOdds = 0.02;

double odds_above(std::span<const double> strengths, OutcomeClass outcome) {
    const double limit = class_limit(outcome);
    double sum = 0.0;
    for (const double strength : strengths) {
        sum += 1.0 / (1.0 + std::exp(-(strength - limit) / kKernelWidth));
    }
    return std::clamp(sum / static_cast<double>(strengths.size()), kLeastOdds, 1.0 - kLeastOdds);
}

}  // namespace

std::string_view name_of(OutcomeClass outcome) {
    constexpr std::array<std::string_view, 5> kNames{"nothing", "slight", "fair", "good", "outstanding"};
    return kNames[static_cast<std::size_t>(outcome)];
}

double class_limit(OutcomeClass outcome) {
    constexpr std::array<double, 5> kLimits{0.0, 10.0, 24.0, 36.0, 50.0};
    return kLimits[static_cast<std::size_t>(outcome)];
}

double Odds::of(OutcomeClass outcome) const {
    switch (outcome) {
        case OutcomeClass::kNothing:
            return 1.0;
        case OutcomeClass::kSlight:
            return slight;
        case OutcomeClass::kFair:
            return fair;
        case OutcomeClass::kGood:
            return good;
        case OutcomeClass::kOutstanding:
            break;
    }
    return outstanding;
}

Odds odds_of(std::span<const double> strengths) {
    GLOAM_CHECK(!strengths.empty());
    return {odds_above(strengths, OutcomeClass::kSlight), odds_above(strengths, OutcomeClass::kFair),
            odds_above(strengths, OutcomeClass::kGood), odds_above(strengths, OutcomeClass::kOutstanding)};
}

double quantile(std::span<const double> values, double share) {
    GLOAM_CHECK(!values.empty());
    std::vector<double> sorted(values.begin(), values.end());
    std::sort(sorted.begin(), sorted.end());
    const double place = share * static_cast<double>(sorted.size() - 1);
    const auto low = static_cast<std::size_t>(place);
    const std::size_t high = std::min(low + 1, sorted.size() - 1);
    return sorted[low] + (place - static_cast<double>(low)) * (sorted[high] - sorted[low]);
}

Spread spread_of(std::span<const double> values) {
    return {quantile(values, 0.5), quantile(values, 0.1), quantile(values, 0.9)};
}

}  // namespace gloam::outlook
