#include "sheet/sky_cloud.hpp"

#include <algorithm>
#include <cmath>

#include "air/standard_atmosphere.hpp"
#include "base/parallel.hpp"
#include "sky/air_ray.hpp"

namespace gloam::sheet {
namespace {

/// A layer that the viewer stands in begins this far above the eye, as in the panorama.
constexpr double kInCloud_m = 30.0;
/// Slopes are measured over this part of an element.
constexpr double kSlope = 0.16;
/// Air hides shading: what is left after this distance is 1/e.
constexpr double kShadeFades_m = 60.0e3;
constexpr double kLeastShare = 1e-6;
/// Steps of a correction; more change no block of 15 deg by a percent.
constexpr int kCorrections = 24;

/// 0 below, 1 above, so that of evenly spread ranks the share `share` is above in the mean; `soft` wide.
double ramp(double rank, double share, double soft) {
    const double wide = std::min({soft, 2.0 * share, 2.0 * (1.0 - share)});
    const double over = rank - (1.0 - share);
    return wide <= kLeastShare ? (over >= 0.0 ? 1.0 : 0.0) : std::clamp(over / wide + 0.5, 0.0, 1.0);
}

/// From nearly closed on, what is open is no hole but thin cloud: the share that is left, most of it where
/// cloud is thinnest.
double closing(double rank, double share, double soft) {
    constexpr double kHoles = 0.12;
    constexpr double kNone = 0.03;
    const double holes = std::clamp((1.0 - share - kNone) / (kHoles - kNone), 0.0, 1.0);
    const double thin = 1.0 - (1.0 - share) * 3.0 * (1.0 - rank) * (1.0 - rank);
    return std::lerp(thin, ramp(rank, share, soft), holes);
}

/// From 0 to 1 without a step, `share` in the mean of evenly spread ranks.
double gradual(double rank, double share) {
    return share <= kLeastShare ? 0.0 : std::pow(rank, 1.0 / share - 1.0);
}

/// Place among the cloud of its neighbourhood, 0 thinnest, 1 thickest.
double depth_of(double rank, double closed) {
    return std::clamp((rank - (1.0 - closed)) / std::max(closed, kLeastShare), 0.0, 1.0);
}

/// How much a wrong share would show.
double contrast(const sky::Xyz& a, const sky::Xyz& b) {
    return std::abs(a.y - b.y) + 0.1 * (a.y + b.y);
}

double spread(double share) {
    return share * (1.0 - share);
}

}  // namespace

CloudSheet::CloudSheet(const outlook::SeenSky& seen, std::size_t layer, const SkyLights& lights,
                       std::uint64_t seed, double pixel_rad, OpenSky& open)
    : form_(form_of(seen.clouds.layers()[layer].kind)),
      texture_(seen.clouds.layers()[layer], seed),
      viewer_radius_m_(air::kEarthRadius_m + seen.viewer_height_m),
      base_radius_m_(air::kEarthRadius_m +
                     std::max(seen.clouds.layers()[layer].base_m, seen.viewer_height_m + kInCloud_m)),
      optical_depth_(seen.clouds.layers()[layer].optics.optical_depth),
      sun_azimuth_(seen.sun.azimuth),
      sun_up_(std::clamp(seen.sun.state.elevation.degrees() + 0.5, 0.0, 1.0)),
      pixel_rad_(pixel_rad) {
    std::vector<Spot> spots = spots_of(layer, lights, open);
    rank_thickness(spots);
    correct_closed(spots);
    rank_brightness(spots);
    correct_lit(spots);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        open.mixture[i] -= spots[i].wanted;
        open.drawn[i] -= spots[i].seen;
    }
}

std::vector<CloudSheet::Spot> CloudSheet::spots_of(std::size_t layer, const SkyLights& lights,
                                                   const OpenSky& open) const {
    const auto lattice = sky_lattice();
    std::vector<Spot> spots(lattice.size());
    constexpr std::size_t kBatch = 288;
    parallel_for(spots.size() / kBatch, [&](std::size_t batch) {
        for (std::size_t i = batch * kBatch; i < (batch + 1) * kBatch; ++i) {
            const SkyLight light = lights.at(lattice[i].direction);
            Spot& spot = spots[i];
            spot.direction = lattice[i].direction;
            spot.solid_angle = lattice[i].solid_angle;
            spot.near = neighbours_of(spot.direction);
            spot.reading = read(spot.direction);
            spot.light = light.layers[layer];
            spot.behind = light.clear;
            spot.open = open.drawn[i];
            spot.wanted = open.mixture[i] * spot.light.closed;
        }
    });
    return spots;
}

void CloudSheet::rank_thickness(std::vector<Spot>& spots) {
    std::vector<RankSample> samples;
    double squares = 0.0;
    for (const Spot& spot : spots) {
        samples.push_back({spot.direction, spot.reading.thickness, spot.solid_angle});
        squares += spot.reading.facing * spot.reading.facing;
    }
    thickness_ranks_.emplace(samples);
    facing_scale_ = std::sqrt(static_cast<double>(spots.size()) / std::max(squares, kLeastShare));
    for (Spot& spot : spots) {
        spot.rank = thickness_ranks_->rank(spot.direction, spot.reading.thickness);
    }
}

/// Until each neighbourhood shows of the layer what the mixture does.
void CloudSheet::correct_closed(std::vector<Spot>& spots) {
    std::vector<ShareCorrection::Point> points(spots.size());
    const auto draw = [&](Spot& spot) {
        const double closed = closed_correction_.corrected(spot.light.closed, spot.direction);
        spot.seen = spot.open * opacity(spot.rank, closed, spot.reading);
        return spot.open * spread(closed);
    };
    for (int step = 0; step < kCorrections; ++step) {
        for (std::size_t i = 0; i < spots.size(); ++i) {
            const double slope = draw(spots[i]);
            const double weight = spots[i].solid_angle * contrast(spots[i].light.mean(), spots[i].behind);
            points[i] = {spots[i].near, weight, spots[i].wanted, spots[i].seen, slope};
        }
        closed_correction_.improve(points);
    }
    std::for_each(spots.begin(), spots.end(), draw);
}

void CloudSheet::rank_brightness(std::vector<Spot>& spots) {
    std::vector<RankSample> samples;
    for (const Spot& spot : spots) {
        samples.push_back({spot.direction, depth_of(spot.rank, spot.light.closed),
                           spot.solid_angle * std::max(kLeastShare, spot.seen)});
    }
    mean_depth_.emplace(samples);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        samples[i].value = brightness(spots[i].direction, spots[i].reading, samples[i].value);
    }
    brightness_ranks_.emplace(samples);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        spots[i].rank = brightness_ranks_->rank(samples[i].direction, samples[i].value);
    }
}

/// The same for its lit part.
void CloudSheet::correct_lit(const std::vector<Spot>& spots) {
    std::vector<ShareCorrection::Point> points(spots.size());
    for (int step = 0; step < kCorrections; ++step) {
        for (std::size_t i = 0; i < spots.size(); ++i) {
            const Spot& spot = spots[i];
            const double share = lit_correction_.corrected(spot.light.lit_share, spot.direction);
            points[i] = {spot.near, spot.solid_angle * contrast(spot.light.lit, spot.light.unlit),
                         spot.wanted * spot.light.lit_share, spot.seen * lit(spot.rank, share, spot.reading),
                         spot.seen * spread(share)};
        }
        lit_correction_.improve(points);
    }
}

CloudSheet::Reading CloudSheet::read(const SkyDirection& direction) const {
    const double sine = std::sin(direction.elevation_rad);
    const double cosine = std::cos(direction.elevation_rad);
    Reading reading;
    reading.path_m = sky::path_to_radius_m(viewer_radius_m_, sine, base_radius_m_, true);
    const double up_m = viewer_radius_m_ + reading.path_m * sine;
    const double ground_m = air::kEarthRadius_m * std::atan2(reading.path_m * cosine, up_m);
    reading.mu = (viewer_radius_m_ * sine + reading.path_m) / base_radius_m_;
    const double high_px = texture_.element_m() * reading.mu / (reading.path_m * pixel_rad_);
    reading.shown = std::clamp((high_px - 0.4) / 2.0, 0.0, 1.0);
    // A pixel covers more along the view than across it; the mean of both in logarithm.
    const double finest_m = reading.path_m * pixel_rad_ / std::sqrt(std::max(reading.mu, 0.01));
    const double compass_rad = sun_azimuth_.radians() + direction.azimuth_rad;
    const PlanePoint here{ground_m * std::sin(compass_rad), ground_m * std::cos(compass_rad)};
    const double slope_m = std::max(kSlope * texture_.element_m(), finest_m);
    const PlanePoint away{here.east_m - slope_m * std::sin(sun_azimuth_.radians()),
                          here.north_m - slope_m * std::cos(sun_azimuth_.radians())};
    reading.thickness = texture_.thickness(here, finest_m);
    reading.facing = texture_.thickness(away, finest_m) - reading.thickness;
    return reading;
}

double CloudSheet::opacity(double rank, double closed, const Reading& reading) const {
    return std::lerp(closed, closing(rank, closed, form_.soft_edge), reading.shown);
}

double CloudSheet::lit(double rank, double lit_share, const Reading& reading) const {
    return std::lerp(lit_share, gradual(rank, lit_share), reading.shown * form_.relief);
}

/// Slopes towards the sun first; seen against the sun, thin cloud and edges as well.
double CloudSheet::brightness(const SkyDirection& direction, const Reading& reading, double depth) const {
    const double against = 0.5 * (1.0 + std::cos(direction.azimuth_rad));
    const double thin = std::lerp(2.0 * against - 0.7, 1.4 * against + 0.6, sun_up_);
    return facing_scale_ * reading.facing + thin * (0.5 - depth);
}

DrawnCloud CloudSheet::at(const SkyDirection& direction, const LayerLight& light) const {
    if (light.closed <= kLeastShare) {
        return {};
    }
    const Reading reading = read(direction);
    const double rank = thickness_ranks_->rank(direction, reading.thickness);
    const double depth = depth_of(rank, light.closed);
    const double bright = brightness_ranks_->rank(direction, brightness(direction, reading, depth));
    const double lit_share = lit(bright, lit_correction_.corrected(light.lit_share, direction), reading);
    const double shade = 1.0 + reading.shown * form_.shade * (mean_depth_->at(direction) - depth) *
                                   std::exp(-reading.path_m / kShadeFades_m);
    return {opacity(rank, closed_correction_.corrected(light.closed, direction), reading),
            light.unlit * shade + (light.lit + light.unlit * -1.0) * lit_share,
            std::exp(-optical_depth_ / std::max(reading.mu, 0.01))};
}

}  // namespace gloam::sheet
