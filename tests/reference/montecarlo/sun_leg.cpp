#include "reference/montecarlo/sun_leg.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace gloam::montecarlo {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kDark = -80.0;
constexpr int kDiscNodes = 9;

/// Columns and central angle gathered along a piece of a ray.
struct Piece {
    PerSpecies columns{};
    double central_angle_rad = 0.0;
};

/// Radius at which the ray with constant `bouguer_km` would be level. Under the ground the index is that of
/// the ground.
double perigee_km(const Medium& medium, double bouguer_km, double highest_km) {
    double low = 0.0;
    double high = highest_km;
    for (int i = 0; i < 70; ++i) {
        const double middle = 0.5 * (low + high);
        const bool above = medium.refractive_index(middle - medium.radius_km) * middle > bouguer_km;
        (above ? high : low) = middle;
    }
    return high;
}

/// From radius `from_km` up to `to_km`. Three Gauss points in each interval of u.
Piece gathered(const Medium& medium, double bouguer_km, double perigee, double from_km, double to_km) {
    constexpr int kIntervals = 100;
    constexpr std::array<double, 3> kNode{-0.7745966692414834, 0.0, 0.7745966692414834};
    constexpr std::array<double, 3> kWeight{5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    Piece piece;
    const double from_u = std::sqrt(std::max(0.0, from_km - perigee));
    const double width = (std::sqrt(std::max(0.0, to_km - perigee)) - from_u) / kIntervals;
    for (int i = 0; i < kIntervals; ++i) {
        for (std::size_t k = 0; k < kNode.size(); ++k) {
            const double u = from_u + width * (i + 0.5 + 0.5 * kNode[k]);
            const double r = perigee + u * u;
            const double x = medium.refractive_index(r - medium.radius_km) * r;
            const double root = std::sqrt(std::max(1e-300, (x - bouguer_km) * (x + bouguer_km)));
            const double climb_km = 2.0 * u * width * kWeight[k];
            const PerSpecies density = medium.profiles.at(r - medium.radius_km);
            for (std::size_t s = 0; s < kSpecies; ++s) {
                piece.columns[s] += density[s] * climb_km * x / root;
            }
            piece.central_angle_rad += climb_km * bouguer_km / (root * r);
        }
    }
    return piece;
}

/// The rays of one height, crowding at the one that grazes.
std::vector<SunRay> rays_of(const Medium& medium, double height_km) {
    constexpr int kRays = 360;
    const double grazing = grazing_zenith_rad(medium, height_km);
    std::vector<SunRay> rays;
    rays.reserve(kRays + 1);
    for (int i = 0; i <= kRays; ++i) {
        const double t = 1.0 - static_cast<double>(i) / kRays;
        rays.push_back(sun_ray(medium, height_km, grazing * (1.0 - t * t * t)));
    }
    return rays;
}

/// What one row of the table is read from: rays in the order of their true zenith angle.
class RayRow {
  public:
    RayRow(const Medium& medium, double height_km) : rays_(rays_of(medium, height_km)) {}

    double edge_rad() const { return rays_.back().true_zenith_rad; }

    SunRay at(double true_zenith_rad) const {
        const auto [i, share] = place(true_zenith_rad);
        const SunRay& a = rays_[i];
        const SunRay& b = rays_[i + 1];
        SunRay ray;
        ray.true_zenith_rad = true_zenith_rad;
        ray.apparent_zenith_rad = std::lerp(a.apparent_zenith_rad, b.apparent_zenith_rad, share);
        for (std::size_t s = 0; s < kSpecies; ++s) {
            // A ray from the very top has no column at all.
            ray.columns[s] = std::exp(std::lerp(std::log(std::max(a.columns[s], 1e-12)),
                                                std::log(std::max(b.columns[s], 1e-12)), share));
        }
        return ray;
    }

    /// dz/dchi, linear between the middles of neighbouring rays.
    double thinning(double true_zenith_rad) const {
        const auto [i, share] = place(true_zenith_rad);
        const std::size_t first = share < 0.5 ? (i == 0 ? 0 : i - 1) : std::min(i, rays_.size() - 3);
        const double from = middle(first);
        const double t = std::clamp((true_zenith_rad - from) / (middle(first + 1) - from), 0.0, 1.0);
        return std::lerp(slope(first), slope(first + 1), t);
    }

  private:
    std::pair<std::size_t, double> place(double true_zenith_rad) const {
        const auto above =
            std::upper_bound(rays_.begin() + 1, rays_.end() - 1, true_zenith_rad,
                             [](double angle, const SunRay& ray) { return angle < ray.true_zenith_rad; });
        const auto i = static_cast<std::size_t>(above - rays_.begin()) - 1;
        return {i, (true_zenith_rad - rays_[i].true_zenith_rad) /
                       (rays_[i + 1].true_zenith_rad - rays_[i].true_zenith_rad)};
    }
    double middle(std::size_t i) const {
        return 0.5 * (rays_[i].true_zenith_rad + rays_[i + 1].true_zenith_rad);
    }
    double slope(std::size_t i) const {
        return (rays_[i + 1].apparent_zenith_rad - rays_[i].apparent_zenith_rad) /
               (rays_[i + 1].true_zenith_rad - rays_[i].true_zenith_rad);
    }

    std::vector<SunRay> rays_;
};

/// Transmission from one point of the sun's disc.
void add_disc_point(const Medium& medium, const RayRow& row, double true_zenith_rad, double weight,
                    sky::Spectrum& sum) {
    const double angle = std::abs(true_zenith_rad);
    if (angle > row.edge_rad()) {
        return;
    }
    const SunRay ray = row.at(angle);
    const double thinned = weight * row.thinning(angle);
    for (std::size_t b = 0; b < sky::kBands; ++b) {
        double depth = 0.0;
        for (std::size_t s = 0; s < kSpecies; ++s) {
            depth += medium.depth[s][b] * ray.columns[s];
        }
        sum[b] += thinned * std::exp(-depth);
    }
}

/// Mean over the disc: Gauss-Chebyshev in its vertical coordinate, for chords go as sqrt(1 - x^2).
sky::Spectrum disc_mean(const Medium& medium, const RayRow& row, double true_zenith_rad) {
    sky::Spectrum sum{};
    for (int i = 1; i <= kDiscNodes; ++i) {
        const double t = kPi * i / (kDiscNodes + 1);
        const double weight = 2.0 / (kDiscNodes + 1) * std::sin(t) * std::sin(t);
        add_disc_point(medium, row, true_zenith_rad + medium.sun_radius_deg * kPi / 180.0 * std::cos(t),
                       weight, sum);
    }
    return sum;
}

}  // namespace

double grazing_zenith_rad(const Medium& medium, double height_km) {
    const double sine = medium.radius_km * medium.refractive_index(0.0) /
                        ((medium.radius_km + height_km) * medium.refractive_index(height_km));
    return kPi - std::asin(std::min(1.0, sine));
}

SunRay sun_ray(const Medium& medium, double height_km, double apparent_zenith_rad) {
    const double r = medium.radius_km + height_km;
    const double bouguer = medium.refractive_index(height_km) * r * std::sin(apparent_zenith_rad);
    const double perigee = perigee_km(medium, bouguer, r);
    const double top = medium.top_radius_km();
    Piece piece = gathered(medium, bouguer, perigee, r, top);
    if (apparent_zenith_rad > kPi / 2.0) {
        const Piece dip = gathered(medium, bouguer, perigee, perigee, r);
        for (std::size_t s = 0; s < kSpecies; ++s) {
            piece.columns[s] += 2.0 * dip.columns[s];
        }
        piece.central_angle_rad += 2.0 * dip.central_angle_rad;
    }
    const double at_top =
        std::asin(std::min(1.0, bouguer / (medium.refractive_index(medium.profiles.top_km()) * top)));
    return {apparent_zenith_rad, at_top + piece.central_angle_rad, piece.columns};
}

SunBeam::SunBeam(const Medium& medium)
    : medium_(&medium), edge_rad_(kRows), ln_t_(kRows * kNodes * sky::kBands), apparent_rad_(kRows * kNodes) {
    for (std::size_t row = 0; row < kRows; ++row) {
        fill_row(row);
    }
}

double SunBeam::row_height_km(std::size_t row) const {
    const double t = static_cast<double>(row) / (kRows - 1);
    return medium_->profiles.top_km() * t * t;
}

double SunBeam::node_distance_rad(std::size_t node) const {
    const double t = static_cast<double>(node) / (kNodes - 1);
    return 0.75 * kPi * t * t;
}

void SunBeam::fill_row(std::size_t row) {
    const RayRow rays(*medium_, row_height_km(row));
    edge_rad_[row] = rays.edge_rad() + medium_->sun_radius_deg * kPi / 180.0;
    for (std::size_t node = 0; node < kNodes; ++node) {
        const double zenith = edge_rad_[row] - node_distance_rad(node);
        const sky::Spectrum t = disc_mean(*medium_, rays, zenith);
        const std::size_t at = row * kNodes + node;
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            ln_t_[at * sky::kBands + b] = static_cast<float>(t[b] > std::exp(kDark) ? std::log(t[b]) : kDark);
        }
        const double seen = std::clamp(zenith, 0.0, rays.edge_rad());
        apparent_rad_[at] = seen - rays.at(seen).apparent_zenith_rad;
    }
}

std::optional<SunBeam::Place> SunBeam::place(double height_km, double true_zenith_rad) const {
    const double top = medium_->profiles.top_km();
    const double row_place = std::sqrt(std::clamp(height_km / top, 0.0, 1.0)) * (kRows - 1);
    Place found{};
    found.row = std::min(static_cast<std::size_t>(row_place), kRows - 2);
    found.row_share = row_place - static_cast<double>(found.row);
    const double edge = std::lerp(edge_rad_[found.row], edge_rad_[found.row + 1], found.row_share);
    if (true_zenith_rad >= edge) {
        return std::nullopt;
    }
    const double node_place = std::sqrt((edge - true_zenith_rad) / (0.75 * kPi)) * (kNodes - 1);
    found.node = std::min(static_cast<std::size_t>(node_place), kNodes - 2);
    found.node_share = node_place - static_cast<double>(found.node);
    return found;
}

double SunBeam::ln_at(const Place& p, std::size_t band) const {
    const float* low = &ln_t_[(p.row * kNodes + p.node) * sky::kBands + band];
    const float* high = low + kNodes * sky::kBands;
    const auto between = [&p](const float* node) {
        const double a = static_cast<double>(node[0]);
        return a + p.node_share * (static_cast<double>(node[sky::kBands]) - a);
    };
    const double below = between(low);
    return below + p.row_share * (between(high) - below);
}

double SunBeam::transmission(const Place& p, std::size_t band) const {
    return std::exp(ln_at(p, band));
}

sky::Spectrum SunBeam::transmission(const Place& p) const {
    sky::Spectrum t;
    for (std::size_t b = 0; b < sky::kBands; ++b) {
        t[b] = transmission(p, b);
    }
    return t;
}

double SunBeam::apparent_zenith_rad(double height_km, double true_zenith_rad) const {
    const auto p = place(height_km, true_zenith_rad);
    if (!p) {
        return grazing_zenith_rad(*medium_, height_km);
    }
    const double* low = &apparent_rad_[p->row * kNodes + p->node];
    const double* high = low + kNodes;
    return true_zenith_rad - std::lerp(std::lerp(low[0], low[1], p->node_share),
                                       std::lerp(high[0], high[1], p->node_share), p->row_share);
}

sky::Spectrum level_sun(const SunBeam& beam, double sun_elevation_deg) {
    const double zenith = (90.0 - sun_elevation_deg) * kPi / 180.0;
    sky::Spectrum light{};
    if (const auto place = beam.place(0.0, zenith)) {
        const double slant = std::max(0.0, std::cos(beam.apparent_zenith_rad(0.0, zenith)));
        light = beam.transmission(*place);
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            light[b] *= slant * beam.medium().sun[b];
        }
    }
    return light;
}

}  // namespace gloam::montecarlo
