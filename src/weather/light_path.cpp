#include "weather/light_path.hpp"

#include <fmt/format.h>

#include "base/check.hpp"
#include "weather/blended_sums.hpp"
#include "weather/path_frame.hpp"

namespace gloam::weather {
namespace {

/// Metres along and aside of a sample point, before the forecast was moved.
struct SamplePoint {
    double along_m;
    double aside_m;
};

SamplePoint sample_point(std::size_t line, std::size_t point, const Displacement& moved) {
    return {LightPathGrid::kFirst_m + static_cast<double>(point) * LightPathGrid::kStep_m - moved.along_m,
            LightPathGrid::kFirstAside_m + static_cast<double>(line) * LightPathGrid::kLineSpacing_m -
                moved.aside_m};
}

tl::unexpected<Error> not_covered(const LayeredForecast& forecast, geo::LatLon viewer, geo::LatLon outside) {
    const std::string hint = "give a forecast that reaches 900 km beyond the place on all sides";
    if (!weights_at(forecast.grid, viewer)) {
        return fail(ErrorKind::kOutOfDomain, "the forecast does not cover the place", geo::to_text(viewer),
                    hint);
    }
    return fail(ErrorKind::kOutOfDomain,
                fmt::format("the forecast covers the place but not the whole light path, which passes {}",
                            geo::to_text(outside)),
                geo::to_text(viewer), hint);
}

/// A path through the forecast of one member, which `displacement` moves.
struct Path {
    const LayeredForecast& forecast;
    const LayeredMember& member;
    geo::LatLon viewer;
    Instant instant;
    const Displacement& displacement;
};

Result<BandSums> sums_at(const Path& path, const StepBlend& blend, geo::LatLon point) {
    const auto weights = weights_at(path.forecast.grid, point);
    if (!weights) {
        return not_covered(path.forecast, path.viewer, point);
    }
    const auto sums = blended_sums(blend, *weights);
    return sums ? Result<BandSums>(*sums) : Result<BandSums>(no_column_at(point));
}

/// Sums of the one column there is, at the time at which the cloud that is now at `sample` is overhead.
Result<BandSums> drifted_sums(const Path& path, const SamplePoint& sample) {
    const double seconds = sample.along_m / path.displacement.drift_along_m_s +
                           sample.aside_m / path.displacement.drift_aside_m_s;
    return blend_at(path.member, path.instant, path.displacement.later + hours(seconds / 3600.0))
        .and_then([&](const StepBlend& blend) { return sums_at(path, blend, path.viewer); });
}

}  // namespace

Result<std::array<LightPathLayer, 3>> sample_light_path(const LayeredForecast& forecast,
                                                        std::size_t member_index, geo::LatLon viewer,
                                                        Azimuth sun, Instant instant,
                                                        const Displacement& displacement) {
    GLOAM_CHECK(member_index < forecast.members.size());
    const Path path{forecast, forecast.members[member_index], viewer, instant, displacement};
    const auto blend = blend_at(path.member, instant, displacement.later);
    if (!blend) {
        return tl::unexpected(blend.error());
    }
    const PathFrame frame(viewer, sun);
    std::array<PathFrame::Turn, LightPathGrid::kPoints> along;
    for (std::size_t point = 0; point < along.size(); ++point) {
        along[point] = frame.turn(sample_point(0, point, displacement).along_m);
    }
    std::array<LightPathLayer, 3> layers;
    BandSums whole;
    for (std::size_t line = 0; line < LightPathGrid::kLines; ++line) {
        const PathFrame::Turn aside = frame.turn(sample_point(line, 0, displacement).aside_m);
        for (std::size_t point = 0; point < LightPathGrid::kPoints; ++point) {
            const auto sums = is_point(forecast.grid)
                                  ? drifted_sums(path, sample_point(line, point, displacement))
                                  : sums_at(path, *blend, frame.point(along[point], aside));
            if (!sums) {
                return tl::unexpected(sums.error());
            }
            for (const Band band : kBands) {
                const std::size_t b = index_of(band);
                layers[b].cover[line][point] = static_cast<float>((*sums)[b].cover);
                whole[b] += (*sums)[b];
            }
        }
    }
    for (const Band band : kBands) {
        const LayerHeights heights = mean_heights(whole[index_of(band)], band, forecast);
        LightPathLayer& layer = layers[index_of(band)];
        layer.base_m = heights.base_m;
        layer.top_m = heights.top_m;
        layer.base_spread_m = heights.base_spread_m;
    }
    return layers;
}

}  // namespace gloam::weather
