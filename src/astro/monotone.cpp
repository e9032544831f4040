#include "astro/monotone.hpp"

#include <algorithm>

#include "base/check.hpp"

namespace gloam::astro {
namespace {

using Grid = std::chrono::duration<Duration::rep, std::ratio<600>>;
constexpr Duration kGrid = Grid(1);
static_assert(2 * kGrid <= kKnotMargin);
constexpr Duration kTurnWidth{100};

struct Sample {
    Instant at;
    double value = 0.0;
};

std::vector<Sample> sample_grid(const Curve& curve, geo::InstantSpan span) {
    std::vector<Sample> samples;
    for (Instant at = std::chrono::floor<Grid>(span.begin) - kGrid; at < span.end + 2 * kGrid; at += kGrid) {
        samples.push_back({at, curve(at)});
    }
    return samples;
}

/// The highest point of `curve`, times `sign`, between `from` and `to`, by thirds.
Instant turning_point(const Curve& curve, double sign, Instant from, Instant to) {
    while (to - from > kTurnWidth) {
        const Duration third = (to - from) / 3;
        if (sign * curve(from + third) < sign * curve(to - third)) {
            from += third;
        } else {
            to -= third;
        }
    }
    return from + (to - from) / 2;
}

}  // namespace

std::vector<Instant> monotone_knots(const Curve& curve, geo::InstantSpan span) {
    const auto grid = sample_grid(curve, span);
    std::vector<Instant> knots = {grid.front().at, grid.back().at};
    for (std::size_t i = 1; i + 1 < grid.size(); ++i) {
        knots.push_back(grid[i].at);
        const bool came_up = grid[i].value >= grid[i - 1].value;
        const bool goes_up = grid[i + 1].value >= grid[i].value;
        if (came_up != goes_up) {
            knots.push_back(turning_point(curve, came_up ? 1.0 : -1.0, grid[i - 1].at, grid[i + 1].at));
        }
    }
    std::sort(knots.begin(), knots.end());
    knots.erase(std::unique(knots.begin(), knots.end()), knots.end());
    return knots;
}

Instant passage(const Curve& curve, Instant before, Instant after) {
    const bool side_after = curve(after) >= 0.0;
    GLOAM_CHECK(before < after && (curve(before) >= 0.0) != side_after);
    while (after - before > Duration(1)) {
        const Instant middle = before + (after - before) / 2;
        ((curve(middle) >= 0.0) == side_after ? after : before) = middle;
    }
    return after;
}

}  // namespace gloam::astro
