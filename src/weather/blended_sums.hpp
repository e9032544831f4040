#pragma once

#include <array>
#include <optional>

#include "weather/grid.hpp"
#include "weather/layer_sums.hpp"
#include "weather/served_times.hpp"

namespace gloam::weather {

/// Sums over the cells round one point, by Band.
using BandSums = std::array<LayerSums, 3>;

/// Sums at a point, in space and time; absent if a cell that counts has no complete column. One set of
/// weights serves all bands and both steps.
std::optional<BandSums> blended_sums(const StepBlend& blend, const CellWeights& weights);

/// The error for a place whose column is not complete.
tl::unexpected<Error> no_column_at(geo::LatLon place);

}  // namespace gloam::weather
