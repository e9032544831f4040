#pragma once

#include <cstddef>
#include <vector>

namespace gloam::montecarlo {

/// Chandrasekhar's H for conservative isotropic scattering, by iteration of its integral equation
/// 1/H = integral of mu' H(mu') / (2 (mu + mu')), the form for albedo 1 (Chandrasekhar 1950, from memory).
class HFunction {
  public:
    HFunction() : h_(kNodes, 1.0) {
        for (int round = 0; round < 400; ++round) {
            std::vector<double> next(kNodes);
            for (std::size_t i = 0; i < kNodes; ++i) {
                next[i] = 0.5 * (h_[i] + at(node(i)));
            }
            h_ = next;
        }
    }

    double at(double mu) const {
        double sum = 0.0;
        for (std::size_t i = 0; i < kNodes; ++i) {
            sum += 0.5 * node(i) * h_[i] / (mu + node(i)) / kNodes;
        }
        return 1.0 / sum;
    }

    /// Radiance that a slab reflects over that of a white Lambertian plane, over a black ground: of a
    /// semi-infinite one H H / (4 (mu + mu0)); one of finite optical depth lacks 4 K K / (3 depth + 6 x
    /// 0.7104) with K = sqrt(3)/4 H (asymptotic theory: van de Hulst 1980, from memory; from depth 5 on).
    double reflected(double mu, double sun_mu, double depth) const {
        const double hh = at(mu) * at(sun_mu);
        return hh / (4.0 * (mu + sun_mu)) - 4.0 * (3.0 / 16.0) * hh / (3.0 * depth + 6.0 * 0.7104);
    }

  private:
    static constexpr std::size_t kNodes = 400;
    static double node(std::size_t i) { return (static_cast<double>(i) + 0.5) / kNodes; }

    std::vector<double> h_;
};

}  // namespace gloam::montecarlo
