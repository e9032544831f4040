#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "sheet/sky_view.hpp"

namespace gloam::sheet {

/// One of the directions, evenly enough over the upper half of the sky, from which neighbourhoods are judged.
struct LatticePoint {
    SkyDirection direction;
    double solid_angle = 0.0;  ///< in proportion
};
std::vector<LatticePoint> sky_lattice();

/// The neighbourhoods about a direction, some 20 deg wide, and how much each has to say there; in sum 1.
struct Neighbours {
    std::array<std::size_t, 4> places{};
    std::array<double, 4> shares{};
};
Neighbours neighbours_of(const SkyDirection& direction);
std::size_t neighbourhood_count();

/// A value in a direction, and how much it counts.
struct RankSample {
    SkyDirection direction;
    double value = 0.0;
    double weight = 0.0;
};

/// Which share of its neighbourhood of the sky has a lower value, as a smooth function of direction and
/// value: with it a threshold leaves about the wanted share in each neighbourhood.
class LocalRanks {
  public:
    static constexpr std::size_t kKnots = 33;
    using Quantiles = std::array<double, kKnots>;

    explicit LocalRanks(std::span<const RankSample> samples);

    /// 0..1.
    double rank(const SkyDirection& direction, double value) const;

  private:
    std::vector<Quantiles> places_;  ///< by neighbourhood
};

/// The mean of a value in each neighbourhood, smooth over the sky.
class LocalMean {
  public:
    explicit LocalMean(std::span<const RankSample> samples);

    double at(const SkyDirection& direction) const;

  private:
    std::vector<double> means_;  ///< by neighbourhood
};

/// A correction that is smooth over the sky, on the logit of a share: none stays none, all stays all.
class ShareCorrection {
  public:
    ShareCorrection() : logits_(neighbourhood_count(), 0.0) {}

    double corrected(double share, const SkyDirection& direction) const;

    /// What is wanted in a direction, and what is there at present.
    struct Point {
        Neighbours near;
        double weight = 0.0;  ///< of the point
        double wanted = 0.0;
        double drawn = 0.0;
        double slope = 0.0;  ///< how drawn grows with the logit
    };
    /// One step towards each neighbourhood's wanted sum.
    void improve(std::span<const Point> points);

  private:
    std::vector<double> logits_;  ///< by neighbourhood
};

}  // namespace gloam::sheet
