#include "outlook/neighbourhood.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace gloam::outlook {
namespace {

constexpr std::size_t kDimensions = 11;
using Point = std::array<double, kDimensions>;

/// The least prime that is at least `count`, from 5 on.
std::size_t prime_from(std::size_t count) {
    const auto is_prime = [](std::size_t n) {
        for (std::size_t factor = 2; factor * factor <= n; ++factor) {
            if (n % factor == 0) {
                return false;
            }
        }
        return true;
    };
    std::size_t prime = std::max<std::size_t>(count, 5);
    while (!is_prime(prime)) {
        ++prime;
    }
    return prime;
}

/// The i-th point in the unit cube of a Korobov lattice of `prime` points: in every dimension there is one in
/// the middle of each of `prime` equal parts. The 0th is the centre of the cube. With 31 points and this
/// generator the pair of dimensions that displaces the cloud is filled as evenly as any lattice can.
Point point_of(std::size_t i, std::size_t prime) {
    constexpr std::size_t kGenerator = 12;
    Point point{};
    std::size_t step = 1;
    for (double& u : point) {
        u = std::fmod(0.5 + static_cast<double>(i * step % prime) / static_cast<double>(prime), 1.0);
        step = step * kGenerator % prime;
    }
    return point;
}

constexpr double kSpread_m = 40.0e3;
constexpr double kSpreadPerHour_m = 2.0e3;
/// Cloud drifts about this fast; turns a time that cannot be shifted into a distance.
constexpr double kDrift_m_s = 15.0;
constexpr double kLeastDrift_m_s = 5.0;
constexpr double kMostDrift_m_s = 25.0;

/// Standard deviation of where cloud is if the time errs evenly by `half_hours` either way.
double drifted_m(double half_hours) {
    return kDrift_m_s * 3600.0 * half_hours / std::numbers::sqrt3;
}

/// Either sign, 5 to 25 m/s each; 15 m/s in the middle.
double drift_m_s(double u) {
    const double share = std::fmod(std::abs(2.0 * u - 1.0) + 0.5, 1.0);
    const double speed_m_s = kLeastDrift_m_s + share * (kMostDrift_m_s - kLeastDrift_m_s);
    return u < 0.5 ? -speed_m_s : speed_m_s;
}

weather::Displacement displacement_of(const Point& u, const Displaceable& displaceable) {
    double spread_m = displaceable.lead_hours
                          ? kSpread_m + kSpreadPerHour_m * std::max(0.0, *displaceable.lead_hours)
                          : 0.0;
    weather::Displacement displacement;
    if (displaceable.several_steps) {
        displacement.later = hours(displaceable.half_hours * (2.0 * u[2] - 1.0));
    } else {
        spread_m = std::hypot(spread_m, drifted_m(displaceable.half_hours));
    }
    displacement.along_m = spread_m * normal_quantile(u[0]);
    displacement.aside_m = spread_m * normal_quantile(u[1]);
    displacement.drift_along_m_s = drift_m_s(u[8]);
    displacement.drift_aside_m_s = drift_m_s(u[9]);
    return displacement;
}

}  // namespace

std::vector<MemberDraw> neighbourhood(std::size_t count, const Displaceable& displaceable) {
    std::vector<MemberDraw> draws(count);
    const std::size_t prime = prime_from(count);
    for (std::size_t i = 0; i < count; ++i) {
        const Point u = point_of(i, prime);
        MemberDraw& draw = draws[i];
        draw.displacement = displacement_of(u, displaceable);
        draw.base_shift = 2.0 * u[3] - 1.0;
        draw.depth_factor = std::exp2(2.0 * u[4] - 1.0);
        draw.aerosol_depth_550 = std::clamp(0.10 * std::exp(0.6 * normal_quantile(u[5])), 0.02, 0.60);
        draw.aerosol_scale_height_m = 800.0 + (2500.0 - 800.0) * u[6];
        draw.cover_power = std::exp2(2.0 * u[7] - 1.0);
        draw.believed_m = 100.0e3 + (300.0e3 - 100.0e3) * u[10];
    }
    return draws;
}

double normal_quantile(double probability) {
    double low = -9.0;
    double high = 9.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        const double below = 0.5 * std::erfc(-middle / std::numbers::sqrt2);
        (below < probability ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace gloam::outlook
