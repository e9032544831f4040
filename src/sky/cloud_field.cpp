#include "sky/cloud_field.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/ray.hpp"
#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"
#include "sky/cloud_light.hpp"

namespace gloam::sky {
namespace {

using Grid = geo::LightPathGrid;

/// Cover is capped here: ln(1 - 1) would spoil the mean over a passage that has a gap in it.
constexpr double kFullCover = 0.9999;

/// Re = h cos(d) / (1 - cos(d)) with d the depression of the ray that grazes the ground.
double radius_for(double height_m) {
    const double depression = air::grazing_zenith(height_m).radians() - std::numbers::pi / 2.0;
    const double half_sine = std::sin(depression / 2.0);
    return height_m * std::cos(depression) / (2.0 * half_sine * half_sine);
}

/// radius_for on a grid of 200 m, linear between: it is asked thousands of times a sky.
double effective_radius_m(double height_m) {
    constexpr double kStep_m = 200.0;
    constexpr std::size_t kCount = 501;
    static const auto kTable = [] {
        std::array<double, kCount> table{};
        for (std::size_t i = 0; i < kCount; ++i) {
            table[i] = radius_for(std::max(static_cast<double>(i) * kStep_m, 20.0));
        }
        return table;
    }();
    const double place = std::clamp(height_m, 0.0, air::kTopOfAir_m) / kStep_m;
    const auto i = std::min(static_cast<std::size_t>(place), kCount - 2);
    return kTable[i] + (place - static_cast<double>(i)) * (kTable[i + 1] - kTable[i]);
}

/// Weights of two neighbouring entries of a row of `count` for a fractional place, clamped to the ends.
struct Between {
    std::size_t low;
    double share;
};
Between between(double place, std::size_t count) {
    const double inside = std::clamp(place, 0.0, static_cast<double>(count - 1));
    const auto low = std::min(static_cast<std::size_t>(inside), count - 2);
    return {low, inside - static_cast<double>(low)};
}

Between between_lines(double aside_m) {
    return between((aside_m - Grid::kFirstAside_m) / Grid::kLineSpacing_m, Grid::kLines);
}

Between between_points(double along_m) {
    return between((along_m - Grid::kFirst_m) / Grid::kStep_m, Grid::kPoints);
}

double ln_clear(float cover) {
    return std::log1p(-std::min(static_cast<double>(cover), kFullCover));
}

/// Integral of ln(1 - cover) along one line up to a place; beyond the ends the cover stays what it was.
double integral_at(const std::array<double, Grid::kPoints>& integral, double along_m) {
    const Between at = between_points(along_m);
    const double slope = integral[at.low + 1] - integral[at.low];
    const double place = (along_m - Grid::kFirst_m) / Grid::kStep_m;
    return integral[at.low] + (place - static_cast<double>(at.low)) * slope;
}

}  // namespace

double CloudOptics::diffuse_albedo() const {
    const double q = 0.75 * (1.0 - asymmetry) * optical_depth;
    return q / (1.0 + q);
}

CloudOptics cloud_optics(CloudClass kind, double depth_factor) {
    static constexpr std::array<CloudOptics, 3> kClasses{{{15.0, 0.85, 5.0e3, 1.5e3, 0.22, 0.50},
                                                          {8.0, 0.85, 5.0e3, 0.8e3, 0.22, 0.50},
                                                          {2.0, 0.78, 8.0e3, 5.0e3, 0.42, 0.55}}};
    CloudOptics optics = kClasses[static_cast<std::size_t>(kind)];
    optics.optical_depth *= depth_factor;
    GLOAM_CHECK(returned_from_below(optics) <= 1.0);
    return optics;
}

double cover_around(const CloudLayer& layer) {
    constexpr auto kViewer = static_cast<std::size_t>(-Grid::kFirst_m / Grid::kStep_m);
    constexpr auto kReach = static_cast<std::size_t>(50.0e3 / Grid::kStep_m);
    constexpr std::size_t kMiddle = Grid::kLines / 2;
    double sum = 0.0;
    for (std::size_t line = kMiddle - 1; line <= kMiddle + 1; ++line) {
        for (std::size_t i = kViewer - kReach; i <= kViewer + kReach; ++i) {
            sum += static_cast<double>(layer.cover[line][i]);
        }
    }
    return sum / (3.0 * (2.0 * kReach + 1.0));
}

SunRay::SunRay(double start_height_m, double apparent_zenith_rad)
    : height_m(start_height_m),
      sin_depression(-std::cos(apparent_zenith_rad)),
      cos_depression(std::sin(apparent_zenith_rad)),
      effective_radius_m(sky::effective_radius_m(start_height_m)) {}

CloudField::CloudField(std::vector<CloudLayer> layers, std::vector<PathPoint> land)
    : layers_(std::move(layers)), land_(std::move(land)), integral_(layers_.size()) {
    for (std::size_t k = 0; k < layers_.size(); ++k) {
        GLOAM_CHECK(layers_[k].top_m > layers_[k].base_m);
        for (std::size_t line = 0; line < Grid::kLines; ++line) {
            const auto& cover = layers_[k].cover[line];
            auto& integral = integral_[k][line];
            double before = ln_clear(cover[0]);
            for (std::size_t i = 1; i < Grid::kPoints; ++i) {
                const double here = ln_clear(cover[i]);
                integral[i] = integral[i - 1] + 0.5 * (before + here) * Grid::kStep_m;
                before = here;
            }
        }
    }
}

double CloudField::cover(std::size_t layer, double along_m, double aside_m) const {
    const auto& values = layers_[layer].cover;
    const Between line = between_lines(aside_m);
    const Between point = between_points(along_m);
    const auto on_line = [&](std::size_t i) {
        const double low = static_cast<double>(values[i][point.low]);
        return low + point.share * (static_cast<double>(values[i][point.low + 1]) - low);
    };
    const double left = on_line(line.low);
    return left + line.share * (on_line(line.low + 1) - left);
}

double CloudField::mean_ln_clear(std::size_t layer, double aside_m, double from_m, double to_m) const {
    const Between line = between_lines(aside_m);
    const double length_m = std::max(to_m - from_m, 1.0);
    const auto on_line = [&](std::size_t i) {
        const auto& integral = integral_[layer][i];
        return (integral_at(integral, from_m + length_m) - integral_at(integral, from_m)) / length_m;
    };
    const double left = on_line(line.low);
    return left + line.share * (on_line(line.low + 1) - left);
}

template <class Visit>
void CloudField::visit_passages(const PathPoint& from, double apparent_zenith_rad, const Visit& visit) const {
    const SunRay ray(from.height_m, apparent_zenith_rad);
    const double tangent_m = ray.tangent_path_m();
    for (std::size_t k = 0; k < layers_.size(); ++k) {
        const CloudLayer& layer = layers_[k];
        // Half-widths of the stretches below top and below base, from the ray's lowest point.
        const auto half_width_m = [&](double height_m) {
            const double square =
                tangent_m * tangent_m - 2.0 * ray.effective_radius_m * (ray.height_m - height_m);
            return square > 0.0 ? std::sqrt(square) : 0.0;
        };
        const double below_top_m = half_width_m(layer.top_m);
        const double below_base_m = half_width_m(layer.base_m);
        const auto pass = [&](double start_m, double end_m) {
            start_m = std::max(start_m, 0.0);
            if (end_m <= start_m) {
                return;
            }
            const double ground_from_m = from.along_m + start_m * ray.cos_depression;
            const double ground_to_m = from.along_m + end_m * ray.cos_depression;
            const double cells = std::max(1.0, (end_m - start_m) / layer.optics.cell_m);
            visit(CloudPassage{k, ground_from_m, ground_to_m,
                               cells * mean_ln_clear(k, from.aside_m, ground_from_m, ground_to_m)});
        };
        if (below_base_m > 0.0) {
            pass(tangent_m - below_top_m, tangent_m - below_base_m);
            pass(tangent_m + below_base_m, tangent_m + below_top_m);
        } else {
            pass(tangent_m - below_top_m, tangent_m + below_top_m);
        }
    }
}

/// Where the ray's line crosses the land's edge ahead of it, does it pass below?
bool CloudField::land_cuts(const PathPoint& from, double apparent_zenith_rad) const {
    const SunRay ray(from.height_m, apparent_zenith_rad);
    for (std::size_t i = 0; i + 1 < land_.size(); ++i) {
        const PathPoint& left = land_[i];
        const PathPoint& right = land_[i + 1];
        const double share = (from.aside_m - left.aside_m) / (right.aside_m - left.aside_m);
        if (!(share >= 0.0 && share <= 1.0)) {
            continue;
        }
        const double ahead_m = left.along_m + share * (right.along_m - left.along_m) - from.along_m;
        const double edge_m = left.height_m + share * (right.height_m - left.height_m);
        if (ahead_m > 0.0 && ray.height_at(ahead_m / std::max(ray.cos_depression, 1e-6)) < edge_m) {
            return true;
        }
    }
    return false;
}

double CloudField::sun_free(const PathPoint& from, double apparent_zenith_rad) const {
    if (!land_.empty() && land_cuts(from, apparent_zenith_rad)) {
        return 0.0;
    }
    double ln_free = 0.0;
    visit_passages(from, apparent_zenith_rad,
                   [&](const CloudPassage& passage) { ln_free += passage.ln_free; });
    return std::exp(ln_free);
}

std::vector<CloudPassage> CloudField::passages(const PathPoint& from, double apparent_zenith_rad) const {
    std::vector<CloudPassage> all;
    visit_passages(from, apparent_zenith_rad, [&](const CloudPassage& passage) { all.push_back(passage); });
    return all;
}

}  // namespace gloam::sky
