#pragma once

#include <array>

#include "weather/layers.hpp"

namespace gloam::weather {

/// One layer over one place.
struct ColumnLayer {
    double cover = 0.0;          ///< fraction 0..1
    double base_m = 0.0;         ///< above mean sea level; the band's usual height where cover is 0
    double top_m = 0.0;          ///< above mean sea level
    double base_spread_m = 0.0;  ///< half-width of what is not known about base and top together
};

/// The three layers over a place, by Band: bilinear between cells (heights weighted by cover), linear in time
/// as `sample_light_path`, with the same errors. `member_index` is a place in `forecast.members`.
Result<std::array<ColumnLayer, 3>> column_at(const LayeredForecast& forecast, std::size_t member_index,
                                             geo::LatLon place, Instant instant);

}  // namespace gloam::weather
