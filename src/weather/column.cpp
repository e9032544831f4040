#include "weather/column.hpp"

#include "base/check.hpp"
#include "weather/blended_sums.hpp"

namespace gloam::weather {

Result<std::array<ColumnLayer, 3>> column_at(const LayeredForecast& forecast, std::size_t member_index,
                                             geo::LatLon place, Instant instant) {
    GLOAM_CHECK(member_index < forecast.members.size());
    const auto blend = blend_at(forecast.members[member_index], instant, Duration(0));
    if (!blend) {
        return tl::unexpected(blend.error());
    }
    const auto weights = weights_at(forecast.grid, place);
    if (!weights) {
        return fail(ErrorKind::kOutOfDomain, "the forecast does not cover the place", geo::to_text(place),
                    "give a forecast whose area holds it");
    }
    const auto sums = blended_sums(*blend, *weights);
    if (!sums) {
        return no_column_at(place);
    }
    std::array<ColumnLayer, 3> column;
    for (const Band band : kBands) {
        const LayerSums& layer = (*sums)[index_of(band)];
        const LayerHeights heights = mean_heights(layer, band, forecast);
        column[index_of(band)] = {layer.cover, heights.base_m, heights.top_m, heights.base_spread_m};
    }
    return column;
}

}  // namespace gloam::weather
