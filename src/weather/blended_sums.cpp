#include "weather/blended_sums.hpp"

namespace gloam::weather {
namespace {

bool add_step(BandSums& sums, const LayerStep& step, const CellWeights& weights, double share) {
    for (std::size_t i = 0; i < weights.cell.size(); ++i) {
        const double weight = share * weights.weight[i];
        if (weight <= 0.0) {
            continue;
        }
        const std::size_t cell = weights.cell[i];
        if (step.present[cell] == 0) {
            return false;
        }
        for (const Band band : kBands) {
            sums[index_of(band)].add(step.bands[index_of(band)], cell, weight);
        }
    }
    return true;
}

}  // namespace

std::optional<BandSums> blended_sums(const StepBlend& blend, const CellWeights& weights) {
    BandSums sums;
    const bool complete = add_step(sums, *blend.earlier, weights, 1.0 - blend.later_share) &&
                          add_step(sums, *blend.later, weights, blend.later_share);
    return complete ? std::optional(sums) : std::nullopt;
}

tl::unexpected<Error> no_column_at(geo::LatLon place) {
    return fail(ErrorKind::kIncomplete, "the forecast has no complete column of cloud cover here",
                geo::to_text(place), "give a forecast without gaps in this region");
}

}  // namespace gloam::weather
