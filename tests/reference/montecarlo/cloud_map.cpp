#include "reference/montecarlo/cloud_map.hpp"

#include <algorithm>
#include <cmath>

#include "reference/montecarlo/random.hpp"

namespace gloam::montecarlo {
namespace {

constexpr double kPatch_km = 3.0;

/// Value noise that repeats: random numbers on a lattice of `cells` a side, linear between.
class Noise {
  public:
    Noise(std::size_t cells, std::uint64_t seed) : cells_(std::max<std::size_t>(cells, 1)) {
        Stream random(seed, cells_, 0);
        for (std::size_t i = 0; i < cells_ * cells_; ++i) {
            values_.push_back(random.next() - 0.5);
        }
    }
    /// `x` and `y` from 0 to 1 span the tile.
    double at(double x, double y) const {
        const double px = x * static_cast<double>(cells_);
        const double py = y * static_cast<double>(cells_);
        const double tx = px - std::floor(px);
        const double ty = py - std::floor(py);
        const std::size_t i = static_cast<std::size_t>(px) % cells_;
        const std::size_t j = static_cast<std::size_t>(py) % cells_;
        const std::size_t right = (i + 1) % cells_;
        const std::size_t up = (j + 1) % cells_;
        return std::lerp(std::lerp(values_[j * cells_ + i], values_[j * cells_ + right], tx),
                         std::lerp(values_[up * cells_ + i], values_[up * cells_ + right], tx), ty);
    }

  private:
    std::size_t cells_;
    std::vector<double> values_;
};

std::size_t cells_of(double size_km, double scale_km) {
    return static_cast<std::size_t>(std::lround(size_km / scale_km));
}

}  // namespace

CloudMap::CloudMap(const CloudPattern& pattern, std::uint64_t seed)
    : element_km_(pattern.element_km), step_km_(pattern.step_km) {
    std::vector<Noise> noises;
    for (const double scale_km : pattern.scales_km) {
        noises.emplace_back(cells_of(size_km(), scale_km), seed + noises.size());
    }
    const Noise lift(cells_of(size_km(), kPatch_km), seed + 100);
    std::vector<double> height;
    for (std::size_t j = 0; j < kSide; ++j) {
        for (std::size_t i = 0; i < kSide; ++i) {
            const double x = static_cast<double>(i) / kSide;
            const double y = static_cast<double>(j) / kSide;
            double sum = 0.0;
            for (const Noise& noise : noises) {
                sum += noise.at(x, y);
            }
            height.push_back(sum);
            lift_km_.push_back(static_cast<float>(2.0 * pattern.step_km * lift.at(x, y)));
        }
    }
    std::vector<double> sorted = height;
    std::sort(sorted.begin(), sorted.end(), std::greater<>());
    const auto count = static_cast<std::size_t>(pattern.cover * static_cast<double>(sorted.size()));
    const double least = count < sorted.size() ? sorted[count] : sorted.back() - 1.0;
    for (const double value : height) {
        cloudy_.push_back(value > least ? 1 : 0);
    }
}

std::size_t CloudMap::node(double x_km, double y_km) const {
    // kSide is a power of two: the mask wraps negative places as well.
    const auto i =
        static_cast<std::size_t>(static_cast<std::int64_t>(std::floor(x_km / element_km_))) & (kSide - 1);
    const auto j =
        static_cast<std::size_t>(static_cast<std::int64_t>(std::floor(y_km / element_km_))) & (kSide - 1);
    return j * kSide + i;
}

bool CloudMap::cloudy(double x_km, double y_km) const {
    return cloudy_[node(x_km, y_km)] != 0;
}

double CloudMap::lift_km(double x_km, double y_km) const {
    return static_cast<double>(lift_km_[node(x_km, y_km)]);
}

}  // namespace gloam::montecarlo
