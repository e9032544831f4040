#pragma once

#include <optional>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// What a message measures, and how its numbers become ours.
struct GribParameter {
    Quantity quantity = Quantity::kCloudCover;
    double to_our_unit = 1.0;      ///< factor
    std::optional<Level> level;    ///< where the parameter by definition holds, whatever surface is written
    bool total_at_ground = false;  ///< written at the ground it is the total over the column
    std::optional<AerosolKind> aerosol;  ///< likewise, for aerosol whose number says it all
};

/// Tells the parameter by its numbers, never by its short name alone, which stands for several things. The
/// handle is asked for nothing but the name of a parameter that is not used.
tl::expected<GribParameter, NotUsed> parameter_of(const GribField& field, const GribHandle& handle);

/// Number of the originating centre (WMO common code tables C-1 and C-11).
long centre_of(const GribField& field);

}  // namespace gloam::weather
