#include "outlook/moving_clouds.hpp"

#include <algorithm>

#include "base/check.hpp"

namespace gloam::outlook {
namespace {

constexpr std::size_t kEvery = 4;

/// `share` of the way from one reading of a layer to the next.
sky::CloudLayer between(const sky::CloudLayer& before, const sky::CloudLayer& after, double share) {
    sky::CloudLayer layer = before;
    layer.base_m += share * (after.base_m - before.base_m);
    layer.top_m += share * (after.top_m - before.top_m);
    const auto part = static_cast<float>(share);
    for (std::size_t line = 0; line < layer.cover.size(); ++line) {
        for (std::size_t i = 0; i < layer.cover[line].size(); ++i) {
            layer.cover[line][i] += part * (after.cover[line][i] - before.cover[line][i]);
        }
    }
    return layer;
}

}  // namespace

std::vector<sky::CloudLayer> MovingClouds::at(Instant instant) const {
    const auto after = std::ranges::lower_bound(readings, instant, {}, &CloudReading::instant);
    GLOAM_CHECK(after != readings.end());
    if (after->instant == instant) {
        return after->layers;
    }
    GLOAM_CHECK(after != readings.begin());
    const auto before = std::prev(after);
    const double share =
        hours_between(before->instant, instant) / hours_between(before->instant, after->instant);
    std::vector<sky::CloudLayer> layers;
    for (std::size_t k = 0; k < before->layers.size(); ++k) {
        layers.push_back(between(before->layers[k], after->layers[k], share));
    }
    return layers;
}

Result<MovingClouds> moving_clouds(const weather::LayeredForecast& forecast, const Member& member,
                                   geo::LatLon viewer, std::span<const Moment> moments) {
    MovingClouds clouds;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        if (i % kEvery != 0 && i + 1 != moments.size()) {
            continue;
        }
        auto layers = member_clouds(forecast, member, viewer, moments[i].azimuth, moments[i].instant);
        if (!layers) {
            return tl::unexpected(layers.error());
        }
        clouds.readings.push_back({moments[i].instant, *std::move(layers)});
    }
    return clouds;
}

}  // namespace gloam::outlook
