#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "outlook/moments.hpp"
#include "sky/colour_strength.hpp"

namespace gloam::outlook {

/// The strongest moment of a phase.
struct Peak {
    double strength = 0.0;
    std::size_t moment = 0;
    bool at_edge = false;  ///< at the first or last elevation of the phase: the true maximum may lie beyond
};

/// A stretch of moments, both ends included.
struct Stretch {
    std::size_t first = 0;
    std::size_t last = 0;
};

/// One member's event: colour strength at every moment, and what is read off its course.
struct MemberCourse {
    std::vector<sky::ColourStrength> strengths;  ///< by moment
    Peak after;                                  ///< sun -6 to -0.5 deg: decides class and odds
    std::optional<Peak>
        gold;      ///< sun -0.5 to +3 deg: reported beside it; absent if the sun does not come up that far
    Stretch best;  ///< around the after-peak, while strength is at least 3/4 of it
};

MemberCourse read_course(std::span<const Moment> moments, std::vector<sky::ColourStrength> strengths);

/// Minutes for which strength is at least `limit` while the sun is from -6 to -0.5 deg; between moments the
/// course is linear.
double minutes_above(std::span<const Moment> moments, const MemberCourse& course, double limit);

}  // namespace gloam::outlook
