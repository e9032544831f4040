#pragma once

#include <span>

#include "weather/layers.hpp"

namespace gloam::weather {

/// The three layers of cover on pressure levels, at least one a band, from the ground up; `heights` as for
/// `LevelHeights`.
std::array<LayerField, 3> layers_from_levels(std::span<const Field* const> cover,
                                             std::span<const Field* const> heights);

}  // namespace gloam::weather
