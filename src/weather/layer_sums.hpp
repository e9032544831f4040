#pragma once

#include <cstddef>

#include "weather/layers.hpp"

namespace gloam::weather {

/// Weighted sums over cells of one layer; heights are weighted by cover as well, so that clear cells count
/// for nothing.
struct LayerSums {
    double cover = 0.0;
    double base_m = 0.0;
    double top_m = 0.0;
    double base_slab_m = 0.0;

    void add(const LayerField& layer, std::size_t cell, double weight);
    LayerSums& operator+=(const LayerSums& other);
};

/// Base and top of a layer, metres above mean sea level, and half the width of what is not known about them.
struct LayerHeights {
    double base_m = 0.0;
    double top_m = 0.0;
    double base_spread_m = 0.0;
};

/// Cover-weighted heights. Spread: half the slab at the base (which for usual heights is kUnknownSpread_m
/// and kOffStandard_m), 150 m at least, and kOffStandard_m where the forecast has no heights of its own.
/// Without any cover: the band's usual heights, spread kUnknownSpread_m.
LayerHeights mean_heights(const LayerSums& sums, Band band, const LayeredForecast& forecast);

}  // namespace gloam::weather
