#include "outlook/section.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "geo/position.hpp"
#include "outlook/member_air.hpp"
#include "outlook/member_clouds.hpp"

namespace gloam::outlook {
namespace {

using Grid = geo::LightPathGrid;

/// Early and late rays stand this far from the best one.
constexpr double kApart_deg = 0.75;
constexpr double kOutside_m = 10.0;
/// Where no cloud could be lit, rays are drawn to this height: that of usual high cloud.
constexpr double kNoCloudHeight_m = 9.0e3;

weather::Band band_of(const sky::CloudLayer& layer) {
    return weather::kBands[static_cast<std::size_t>(layer.kind)];
}

std::vector<SectionLayer> layers_in(const sky::CloudField& clouds) {
    std::vector<SectionLayer> layers;
    for (std::size_t k = 0; k < clouds.layers().size(); ++k) {
        const sky::CloudLayer& layer = clouds.layers()[k];
        SectionLayer drawn{band_of(layer), layer.base_m, layer.top_m, {}};
        for (std::size_t i = 0; i < Grid::kPoints; ++i) {
            drawn.cover.push_back(
                clouds.cover(k, Grid::kFirst_m + Grid::kStep_m * static_cast<double>(i), 0.0));
        }
        layers.push_back(std::move(drawn));
    }
    return layers;
}

SectionRay ray_at(const Moment& moment, const sky::BeamTable& beam, const sky::CloudField& clouds,
                  double height_m) {
    const double zenith_rad = std::numbers::pi / 2.0 - moment.sun.elevation.radians();
    const double apparent_rad = beam.columns().apparent_zenith_rad(height_m, zenith_rad);
    const sky::SunRay path(height_m, apparent_rad);
    SectionRay ray{moment.instant,
                   moment.sun.elevation,
                   {},
                   {},
                   1.0,
                   zenith_rad <= beam.columns().shadow_edge_rad(height_m)};
    constexpr double kStep_m = 5.0e3;
    for (int i = 0; i * kStep_m <= kSectionReach_m; ++i) {
        const double along_m = i * kStep_m;
        const double at_m = path.height_at(along_m / path.cos_depression);
        if (at_m > kSectionHeight_m || at_m < 0.0) {
            break;
        }
        ray.points.push_back({along_m, at_m});
    }
    for (const auto& passage : clouds.passages({0.0, 0.0, height_m}, apparent_rad)) {
        const double free = std::exp(passage.ln_free);
        ray.meetings.push_back({passage.from_m, passage.to_m, band_of(clouds.layers()[passage.layer]), free});
        ray.free *= free;
    }
    std::sort(ray.meetings.begin(), ray.meetings.end(),
              [](const SectionMeeting& a, const SectionMeeting& b) { return a.from_m < b.from_m; });
    return ray;
}

/// The moment whose sun stands nearest to `elevation_deg`.
const Moment& moment_near(const std::vector<Moment>& moments, double elevation_deg) {
    return *std::min_element(moments.begin(), moments.end(), [=](const Moment& a, const Moment& b) {
        const auto off = [=](const Moment& m) { return std::abs(m.sun.elevation.degrees() - elevation_deg); };
        return off(a) < off(b);
    });
}

}  // namespace

Result<Section> section_of(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                           const EventRequest& request) {
    if (is_point(forecast.grid)) {
        return fail(ErrorKind::kUnsupported,
                    "a forecast for one point holds no light path that could be drawn",
                    geo::to_text(request.observer.at), "give a forecast on a grid");
    }
    const auto moments = moments_of(request.observer, request.half_day);
    if (!moments) {
        return tl::unexpected(moments.error());
    }
    const Member centre = members_of(forecast, request).front();
    const sky::Air air(tables, atmosphere_of(centre.draw, request));
    const auto clouds_at = [&](const Moment& moment) {
        return member_clouds(forecast, centre, request.observer.at, moment.azimuth, moment.instant)
            .map([](const std::vector<sky::CloudLayer>& layers) { return sky::CloudField(layers); });
    };
    // Which cloud could be lit hardly depends on the minute: ask at -1.5 deg, then look at the minute that
    // suits that cloud.
    const Moment& first_look = moment_near(*moments, -1.5);
    auto clouds = clouds_at(first_look);
    if (!clouds) {
        return tl::unexpected(clouds.error());
    }
    const auto index = static_cast<std::size_t>(&first_look - moments->data());
    const LightVerdict found = judge_light(*moments, index, air.beam, *clouds, request.observer.height);
    const bool canvas = found.verdict == Verdict::kOpen || found.verdict == Verdict::kShut;
    const double height_m = canvas ? found.canvas_base_m - kOutside_m : kNoCloudHeight_m;
    const Moment& best = (*moments)[canvas ? found.moment : best_lit_moment(*moments, air.beam, height_m)];
    clouds = clouds_at(best);
    if (!clouds) {
        return tl::unexpected(clouds.error());
    }
    Section section;
    section.towards_sun = best.azimuth;
    section.moment = best.instant;
    section.viewer_height_m = request.observer.height.metres;
    section.layers = layers_in(*clouds);
    const double best_deg = best.sun.elevation.degrees();
    for (const double elevation_deg : {best_deg - kApart_deg, best_deg, best_deg + kApart_deg}) {
        section.rays.push_back(ray_at(moment_near(*moments, elevation_deg), air.beam, *clouds, height_m));
    }
    std::sort(section.rays.begin(), section.rays.end(),
              [](const SectionRay& a, const SectionRay& b) { return a.instant < b.instant; });
    const std::array only{MemberVerdict{found, band_of(clouds->layers()[found.canvas]),
                                        band_of(clouds->layers()[found.blocker])}};
    section.deciding = to_text(reasons_of(only, best.azimuth).front());
    return section;
}

}  // namespace gloam::outlook
