#include "sheet/sky_ranks.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gloam::sheet {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kDegree = kPi / 180.0;

constexpr std::size_t kLatticeRows = 72;
constexpr std::size_t kLatticeColumns = 288;

/// Middles of the neighbourhoods.
constexpr std::array<double, 11> kElevations_deg{2.0,  7.0,  13.0, 20.0, 27.0, 35.0,
                                                 43.0, 52.0, 62.0, 74.0, 88.0};
constexpr std::size_t kAzimuths = 48;
constexpr double kAzimuthStep_rad = 2.0 * kPi / kAzimuths;
constexpr double kReach_rad = 12.0 * kDegree;

/// Azimuths crowd at the zenith, where a neighbourhood is the whole circle.
double reach_in_azimuth(double elevation_rad) {
    return std::min(kPi, kReach_rad / std::max(0.01, std::cos(elevation_rad)) + 0.5 * kAzimuthStep_rad);
}

struct Weighed {
    double value;
    double weight;
};

std::vector<Weighed> neighbourhood_of(std::span<const RankSample> samples, const SkyDirection& middle) {
    const double wide_rad = reach_in_azimuth(middle.elevation_rad);
    std::vector<Weighed> found;
    for (const RankSample& sample : samples) {
        const double up = 1.0 - std::abs(sample.direction.elevation_rad - middle.elevation_rad) / kReach_rad;
        if (up <= 0.0) {
            continue;
        }
        const double aside =
            1.0 -
            std::abs(std::remainder(sample.direction.azimuth_rad - middle.azimuth_rad, 2.0 * kPi)) / wide_rad;
        if (aside > 0.0) {
            found.push_back({sample.value, up * aside * sample.weight});
        }
    }
    return found;
}

LocalRanks::Quantiles quantiles(std::vector<Weighed> found) {
    LocalRanks::Quantiles knots{};
    double total = 0.0;
    for (const Weighed& one : found) {
        total += one.weight;
    }
    if (total <= 0.0) {
        return knots;
    }
    std::sort(found.begin(), found.end(),
              [](const Weighed& a, const Weighed& b) { return a.value < b.value; });
    double below = 0.0;
    std::size_t at = 0;
    for (std::size_t i = 0; i < knots.size(); ++i) {
        const double wanted = total * static_cast<double>(i) / (LocalRanks::kKnots - 1);
        while (at + 1 < found.size() && below + found[at].weight < wanted) {
            below += found[at++].weight;
        }
        knots[i] = found[at].value;
    }
    return knots;
}

double share_below(const LocalRanks::Quantiles& knots, double value) {
    const auto above = std::upper_bound(knots.begin(), knots.end(), value);
    if (above == knots.begin()) {
        return 0.0;
    }
    if (above == knots.end()) {
        return 1.0;
    }
    const double low = *(above - 1);
    const auto whole = static_cast<double>(above - 1 - knots.begin());
    return (whole + (value - low) / (*above - low)) / (LocalRanks::kKnots - 1);
}

}  // namespace

std::vector<LatticePoint> sky_lattice() {
    std::vector<LatticePoint> lattice;
    for (std::size_t row = 0; row < kLatticeRows; ++row) {
        const double root = (static_cast<double>(row) + 0.5) / kLatticeRows;
        const double elevation_rad = kPi / 2.0 * root * root;
        for (std::size_t column = 0; column < kLatticeColumns; ++column) {
            // Every other row is shifted by half a step.
            const double shift = 0.25 + 0.5 * static_cast<double>(row % 2);
            const double turn = (static_cast<double>(column) + shift) / kLatticeColumns;
            lattice.push_back({{2.0 * kPi * (turn - 0.5), elevation_rad}, root * std::cos(elevation_rad)});
        }
    }
    return lattice;
}

Neighbours neighbours_of(const SkyDirection& direction) {
    const double elevation_deg =
        std::clamp(direction.elevation_rad / kDegree, kElevations_deg.front(), kElevations_deg.back());
    const auto above =
        std::upper_bound(kElevations_deg.begin() + 1, kElevations_deg.end() - 1, elevation_deg);
    const auto row = static_cast<std::size_t>(above - 1 - kElevations_deg.begin());
    const double up = (elevation_deg - *(above - 1)) / (*above - *(above - 1));
    const double turns = direction.azimuth_rad / (2.0 * kPi);
    const double column = (turns - std::floor(turns)) * kAzimuths;
    const auto left = static_cast<std::size_t>(column) % kAzimuths;
    const std::size_t right = (left + 1) % kAzimuths;
    const double aside = column - std::floor(column);
    const std::size_t low = row * kAzimuths;
    const std::size_t high = low + kAzimuths;
    return {{low + left, low + right, high + left, high + right},
            {(1.0 - up) * (1.0 - aside), (1.0 - up) * aside, up * (1.0 - aside), up * aside}};
}

std::size_t neighbourhood_count() {
    return kElevations_deg.size() * kAzimuths;
}

LocalRanks::LocalRanks(std::span<const RankSample> samples) {
    for (const double elevation_deg : kElevations_deg) {
        for (std::size_t i = 0; i < kAzimuths; ++i) {
            const SkyDirection middle{kAzimuthStep_rad * static_cast<double>(i), elevation_deg * kDegree};
            places_.push_back(quantiles(neighbourhood_of(samples, middle)));
        }
    }
}

double LocalRanks::rank(const SkyDirection& direction, double value) const {
    const Neighbours near = neighbours_of(direction);
    double rank = 0.0;
    for (std::size_t i = 0; i < near.places.size(); ++i) {
        rank += near.shares[i] * share_below(places_[near.places[i]], value);
    }
    return rank;
}

LocalMean::LocalMean(std::span<const RankSample> samples) : means_(neighbourhood_count(), 0.0) {
    std::vector<double> weights(means_.size(), 0.0);
    for (const RankSample& sample : samples) {
        const Neighbours near = neighbours_of(sample.direction);
        for (std::size_t i = 0; i < near.places.size(); ++i) {
            means_[near.places[i]] += near.shares[i] * sample.weight * sample.value;
            weights[near.places[i]] += near.shares[i] * sample.weight;
        }
    }
    for (std::size_t place = 0; place < means_.size(); ++place) {
        means_[place] /= weights[place];
    }
}

double LocalMean::at(const SkyDirection& direction) const {
    const Neighbours near = neighbours_of(direction);
    double mean = 0.0;
    for (std::size_t i = 0; i < near.places.size(); ++i) {
        mean += near.shares[i] * means_[near.places[i]];
    }
    return mean;
}

double ShareCorrection::corrected(double share, const SkyDirection& direction) const {
    const Neighbours near = neighbours_of(direction);
    double logit = 0.0;
    for (std::size_t i = 0; i < near.places.size(); ++i) {
        logit += near.shares[i] * logits_[near.places[i]];
    }
    const double odds = share * std::exp(logit);
    return odds / (odds + 1.0 - share);
}

void ShareCorrection::improve(std::span<const Point> points) {
    constexpr double kDamping = 0.6;
    constexpr double kMostLogit = 5.0;
    constexpr double kLeastSlope = 0.02;
    std::vector<double> missing(logits_.size(), 0.0);
    std::vector<double> slope(logits_.size(), 0.0);
    std::vector<double> weight(logits_.size(), 0.0);
    for (const Point& point : points) {
        for (std::size_t i = 0; i < point.near.places.size(); ++i) {
            const std::size_t place = point.near.places[i];
            const double share = point.near.shares[i] * point.weight;
            missing[place] += share * (point.wanted - point.drawn);
            slope[place] += share * point.slope;
            weight[place] += share;
        }
    }
    for (std::size_t place = 0; place < logits_.size(); ++place) {
        const double step = kDamping * missing[place] / std::max(slope[place], kLeastSlope * weight[place]);
        logits_[place] = std::clamp(logits_[place] + step, -kMostLogit, kMostLogit);
    }
}

}  // namespace gloam::sheet
