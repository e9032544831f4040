#pragma once

#include <optional>

#include "base/error.hpp"
#include "weather/aerosol.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// Species and wavelength of a message by the product templates for the optical properties of aerosol (4.48,
/// members 4.49); the reason if it names a species or an interval that is not used.
tl::expected<AerosolKind, NotUsed> aerosol_of(const GribField& field);

}  // namespace gloam::weather
