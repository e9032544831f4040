#pragma once

#include <optional>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/not_used.hpp"

namespace gloam::weather {

/// What a message measures, and how its numbers become ours.
struct GribParameter {
    Quantity quantity = Quantity::kCloudCover;
    double to_our_unit = 1.0;      ///< factor
    std::optional<Level> level;    ///< where the parameter by definition holds, whatever surface is written
    bool total_at_ground = false;  ///< written at the ground it is the total over the column
    std::optional<AerosolKind> aerosol;  ///< likewise, for aerosol whose number says it all
};

/// Tells the parameter by its numbers, never by its short name alone, which stands for several things.
tl::expected<GribParameter, NotUsed> parameter_of(const GribHandle& handle, int edition);

}  // namespace gloam::weather
