#include "outlook/neighbourhood.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace gloam::outlook {
namespace {

constexpr std::size_t kDimensions = 7;
using Point = std::array<double, kDimensions>;

/// Root of x^(d+1) = x + 1, whose inverse powers fill d dimensions most evenly.
double recurrence_base() {
    double x = 2.0;
    for (int i = 0; i < 60; ++i) {
        x = std::pow(1.0 + x, 1.0 / (kDimensions + 1.0));
    }
    return x;
}

/// The i-th point in the unit cube; the 0th is its centre.
Point point_of(std::size_t i) {
    static const double kBase = recurrence_base();
    Point point{};
    double inverse = 1.0;
    for (double& u : point) {
        inverse /= kBase;
        const double raw = 0.5 + static_cast<double>(i) * inverse;
        u = raw - std::floor(raw);
    }
    return point;
}

constexpr double kSpread_m = 40.0e3;
constexpr double kSpreadPerHour_m = 2.0e3;
constexpr double kHalfHour_h = 0.5;
/// Cloud drifts about this fast; turns a time that cannot be shifted into a distance.
constexpr double kDrift_m_s = 15.0;

weather::Displacement displacement_of(const Point& u, const Displaceable& displaceable) {
    const double spread_m = kSpread_m + kSpreadPerHour_m * std::max(0.0, displaceable.lead_hours);
    weather::Displacement displacement{
        spread_m * normal_quantile(u[0]), spread_m * normal_quantile(u[1]), {}};
    const double later_h = kHalfHour_h * (2.0 * u[2] - 1.0);
    if (displaceable.several_steps) {
        displacement.later = hours(later_h);
    } else {
        displacement.along_m += later_h * 3600.0 * kDrift_m_s;
    }
    return displacement;
}

}  // namespace

std::vector<MemberDraw> neighbourhood(std::size_t count, const Displaceable* displaceable) {
    std::vector<MemberDraw> draws(count);
    for (std::size_t i = 0; i < count; ++i) {
        const Point u = point_of(i);
        MemberDraw& draw = draws[i];
        if (displaceable) {
            draw.displacement = displacement_of(u, *displaceable);
        }
        draw.base_shift = 2.0 * u[3] - 1.0;
        draw.depth_factor = std::exp2(2.0 * u[4] - 1.0);
        draw.aerosol_depth_550 = std::clamp(0.10 * std::exp(0.6 * normal_quantile(u[5])), 0.02, 0.60);
        draw.aerosol_scale_height_m = 800.0 + (2500.0 - 800.0) * u[6];
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
