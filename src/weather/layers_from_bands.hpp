#pragma once

#include <array>
#include <span>

#include "weather/layers.hpp"
#include "weather/route_steps.hpp"

namespace gloam::weather {

/// The three layers of one cover field a band (the same three times where only the total is known). Base and
/// top of a cell lie at the pressures that `bounds` gives there; where either is missing or they cannot be
/// (base above top, outside 1 to 1100 hPa) the band has its usual heights, known to kUnknownSpread_m and
/// kOffStandard_m. `heights` as for `LevelHeights`.
std::array<LayerField, 3> layers_from_bands(const std::array<const Field*, 3>& cover,
                                            const std::array<CloudBounds, 3>& bounds,
                                            std::span<const Field* const> heights);

}  // namespace gloam::weather
