#pragma once

#include <optional>
#include <string>

#include "weather/band.hpp"

namespace gloam::weather {

/// Where in the column a field holds.
enum class LevelKind {
    kPressure,         ///< one pressure surface, `pressure_pa`
    kWholeAtmosphere,  ///< the total over the column
    kCloudLayer,       ///< low, middle or high cloud as a whole, `band`
    kConvective,       ///< convective cloud only
    kBoundaryLayer,    ///< cloud within the boundary layer
    kCloudBase,        ///< the lowest cloud, or that of `band`
    kCloudTop,         ///< the highest cloud, or that of `band`
    kCloudCeiling,     ///< where cover, seen from below, first exceeds what the centre calls a ceiling
    kAboveGround,      ///< `height_m` above the ground
    kSurface,          ///< the ground or the sea
};
struct Level {
    LevelKind kind = LevelKind::kPressure;
    double pressure_pa = 0.0;  ///< only for kPressure
    std::optional<Band> band =
        std::nullopt;       ///< for kCloudLayer; for kCloudBase and kCloudTop if it is one's
    double height_m = 0.0;  ///< only for kAboveGround

    auto operator<=>(const Level&) const = default;
};

/// "at 500 hPa", "of low cloud", "at the base of low cloud", "2 m above the ground".
std::string to_text(const Level& level);

}  // namespace gloam::weather
