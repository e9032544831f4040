#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string_view>

namespace gloam::outlook {

/// What an event came to, or may come to.
enum class OutcomeClass : std::size_t { kNothing, kSlight, kFair, kGood, kOutstanding };

/// "good" and so on.
std::string_view name_of(OutcomeClass outcome);

/// Least colour strength after sunset or before sunrise of a class from slight to outstanding: 10, 24,
/// 36, 50. A starting rule that only logged outcomes may move.
double class_limit(OutcomeClass outcome);

/// Probability of a class or better.
struct Odds {
    double slight = 0.0;
    double fair = 0.0;
    double good = 0.0;
    double outstanding = 0.0;

    double of(OutcomeClass outcome) const;
};

/// The one recipe from members to odds: mean over members of 1 / (1 + exp(-(I - limit) / 6)), kept within .02
/// and .98. The width 6 is the light model's own error. `strengths` must not be empty.
Odds odds_of(std::span<const double> strengths);

/// Median and the 10 and 90 % points over the members (linear between order statistics).
struct Spread {
    double median = 0.0;
    double p10 = 0.0;
    double p90 = 0.0;
};
Spread spread_of(std::span<const double> values);

/// The same points of any sorted or unsorted sample: quantile `share` in [0, 1].
double quantile(std::span<const double> values, double share);

}  // namespace gloam::outlook
