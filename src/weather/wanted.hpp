#pragma once

#include <chrono>
#include <optional>
#include <vector>

#include "weather/field.hpp"

namespace gloam::weather {

/// How far from an event steps are read, and the longest time between two of them that is bridged without a
/// word: what cloud does in a longer time is hardly between the two.
inline constexpr Duration kLongestGap = std::chrono::hours(6);

/// Which fields somebody wants. The default is all of them.
struct Wanted {
    struct Span {
        Instant from;
        Instant to;
    };
    std::optional<Span> span;          ///< only what holds within kLongestGap of it
    std::vector<Quantity> quantities;  ///< only these; empty: any
    struct Round {
        geo::LatLon centre;
        double radius_m;
    };
    /// Only the part of each grid that values within this circle need; the whole of a grid that has none at
    /// its centre.
    std::optional<Round> round;
};

/// Whether the field may serve the wish.
bool is_wanted(const Wanted& wanted, const FieldHeader& field);

/// Keeps of a field the part of its grid that is wanted.
void crop(const Wanted& wanted, Field& field);

}  // namespace gloam::weather
