#include "reference/montecarlo/cloud_phase.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "reference/montecarlo/mie.hpp"
#include "reference/montecarlo/phase.hpp"

namespace gloam::montecarlo {
namespace {

constexpr double kPi = std::numbers::pi;

/// Scattering angles of the tables: every 0.1 deg to 10 deg, then every 0.5 deg.
std::vector<double> table_angles_rad() {
    std::vector<double> angles;
    for (int i = 0; i < 100; ++i) {
        angles.push_back(i * 0.1 * kPi / 180.0);
    }
    for (int i = 20; i <= 360; ++i) {
        angles.push_back(i * 0.5 * kPi / 180.0);
    }
    return angles;
}

/// Intensity of the droplets at the table angles, by sizes from 1 to 30 um.
std::vector<double> droplet_intensity(const std::vector<double>& angles) {
    constexpr double kEffectiveRadius_um = 8.0;
    constexpr double kVariance = 0.1;
    constexpr double kWavelength_um = 0.55;
    constexpr int kSizes = 150;
    std::vector<double> cosines;
    for (const double angle : angles) {
        cosines.push_back(std::cos(angle));
    }
    std::vector<double> sum(angles.size());
    for (int i = 0; i < kSizes; ++i) {
        const double radius_um = 1.0 + 29.0 * (i + 0.5) / kSizes;
        const double number = std::pow(radius_um, 1.0 / kVariance - 3.0) *
                              std::exp(-radius_um / (kEffectiveRadius_um * kVariance));
        const MieSphere sphere = mie_sphere(2.0 * kPi * radius_um / kWavelength_um, 1.333, cosines);
        for (std::size_t k = 0; k < sum.size(); ++k) {
            sum[k] += number * sphere.intensity[k];
        }
    }
    return sum;
}

}  // namespace

CloudPhase::CloudPhase(const std::function<double(double)>& shape, double peak_deg) {
    const double peak_rad = peak_deg * kPi / 180.0;
    double whole = 0.0;
    double left = 0.0;
    double whole_before = 0.0;
    for (const double angle : table_angles_rad()) {
        const double cosine = std::cos(angle);
        const double uncut = shape(angle);
        const double value = angle < peak_rad ? shape(peak_rad) : uncut;
        if (!cosine_.empty()) {
            const double step = cosine_.back() - cosine;
            whole += 0.5 * (whole_before + uncut) * step;
            left += 0.5 * (value_.back() + value) * step;
            asymmetry_ += 0.25 * (value_.back() + value) * (cosine_.back() + cosine) * step;
        }
        cosine_.push_back(cosine);
        value_.push_back(value);
        share_.push_back(left);
        whole_before = uncut;
    }
    peak_share_ = 1.0 - left / whole;
    asymmetry_ /= left;
    for (std::size_t i = 0; i < value_.size(); ++i) {
        value_[i] *= 2.0 / left;
        share_[i] /= left;
    }
}

double CloudPhase::at(double cosine) const {
    const auto above = std::upper_bound(cosine_.begin() + 1, cosine_.end() - 1, cosine, std::greater<>());
    const auto i = static_cast<std::size_t>(above - cosine_.begin()) - 1;
    const double t = (cosine_[i] - cosine) / (cosine_[i] - cosine_[i + 1]);
    return std::lerp(value_[i], value_[i + 1], std::clamp(t, 0.0, 1.0));
}

double CloudPhase::sampled_cosine(double u) const {
    const auto above = std::upper_bound(share_.begin() + 1, share_.end() - 1, u);
    const auto i = static_cast<std::size_t>(above - share_.begin()) - 1;
    // The density falls or rises linearly inside a step: invert its integral.
    const double t = (u - share_[i]) / (share_[i + 1] - share_[i]);
    const double a = value_[i];
    const double b = value_[i + 1];
    const double root = std::sqrt(std::max(0.0, a * a + t * (b * b - a * a)));
    const double place = t * (a + b) / (a + root);
    return std::lerp(cosine_[i], cosine_[i + 1], place);
}

const CloudPhase& droplets() {
    static const CloudPhase kPhase = [] {
        const std::vector<double> angles = table_angles_rad();
        const std::vector<double> intensity = droplet_intensity(angles);
        const auto shape = [&](double angle) {
            const auto above = std::upper_bound(angles.begin() + 1, angles.end() - 1, angle);
            const auto i = static_cast<std::size_t>(above - angles.begin()) - 1;
            return std::lerp(intensity[i], intensity[i + 1],
                             (angle - angles[i]) / (angles[i + 1] - angles[i]));
        };
        return CloudPhase(shape, 4.0);
    }();
    return kPhase;
}

const CloudPhase& ice() {
    static const CloudPhase kPhase = [] {
        const Phase forward{Phase::Kind::kHenyeyGreenstein, 0.85};
        const Phase backward{Phase::Kind::kHenyeyGreenstein, -0.4};
        // 0.85 a - 0.4 (1 - a) = 0.78
        constexpr double kForwardShare = 1.18 / 1.25;
        return CloudPhase(
            [=](double angle) {
                const double cosine = std::cos(angle);
                return kForwardShare * forward.at(cosine) + (1.0 - kForwardShare) * backward.at(cosine);
            },
            0.0);
    }();
    return kPhase;
}

}  // namespace gloam::montecarlo
