#pragma once

#include <span>
#include <vector>

#include "base/error.hpp"

namespace gloam::decide {

/// Odds that a morning may come with, and how likely each is.
struct OddsOfMorning {
    double odds = 0.0;
    double probability = 0.0;
};

/// A morning still to come: the odds it may show when its call is due. Probabilities sum to 1.
using MorningAhead = std::vector<OddsOfMorning>;

/// A morning of which nothing is forecast yet: odds .1, .3 or .6 in 40, 35 and 25 of 100 cases. A starting
/// rule, no source; logged odds replace it.
MorningAhead usual_morning();

/// What is expected of mornings ahead, in good dawns less what getting up for them costs, if at most `starts`
/// of them are used: V(m, b) = E[max(V(m-1, b), p - cost + V(m-1, b-1))], V = 0 with no morning or no start
/// left. `ahead` is in time order, `cost` of a start in good dawns. Source: dynamic programming (Bellman
/// 1957).
double value_of(std::span<const MorningAhead> ahead, int starts, double cost);

/// Odds above which to spend one of `starts` today: cost + V(m-1, b) - V(m-1, b-1), m-1 mornings being ahead
/// after this one. Infinite with no start left; `cost` alone when starts suffice for every morning.
double start_threshold(std::span<const MorningAhead> after_today, int starts, double cost);

}  // namespace gloam::decide
