#include "weather/layer_sums.hpp"

#include <algorithm>

namespace gloam::weather {
namespace {

constexpr double kLeastSpread_m = 150.0;

}  // namespace

void LayerSums::add(const LayerField& layer, std::size_t cell, double weight) {
    const double cloud = weight * static_cast<double>(layer.cover[cell]);
    if (cloud > 0.0) {
        cover += cloud;
        base_m += cloud * static_cast<double>(layer.base_m[cell]);
        top_m += cloud * static_cast<double>(layer.top_m[cell]);
        base_slab_m += cloud * static_cast<double>(layer.base_slab_m[cell]);
    }
}

LayerSums& LayerSums::operator+=(const LayerSums& other) {
    cover += other.cover;
    base_m += other.base_m;
    top_m += other.top_m;
    base_slab_m += other.base_slab_m;
    return *this;
}

LayerHeights mean_heights(const LayerSums& sums, Band band, const LayeredForecast& forecast) {
    if (sums.cover <= 0.0) {
        const UsualHeights usual = kUsualHeights[index_of(band)];
        return {usual.base_m, usual.top_m, kUnknownSpread_m};
    }
    const double half_slab_m = 0.5 * sums.base_slab_m / sums.cover;
    const double off_m = forecast.heights_from_standard_atmosphere ? kOffStandard_m[index_of(band)] : 0.0;
    return {sums.base_m / sums.cover, sums.top_m / sums.cover, std::max(kLeastSpread_m, half_slab_m) + off_m};
}

}  // namespace gloam::weather
