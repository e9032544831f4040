#include "reference/montecarlo/phase.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gloam::montecarlo {
namespace {

/// Source: Chandrasekhar 1950, with g as in Bucholtz 1995, eq. 12 (from memory).
double rayleigh(double g, double cosine) {
    return 3.0 / (4.0 * (1.0 + 2.0 * g)) * ((1.0 + 3.0 * g) + (1.0 - g) * cosine * cosine);
}

double henyey_greenstein(double g, double cosine) {
    const double base = 1.0 + g * g - 2.0 * g * cosine;
    return (1.0 - g * g) / (base * std::sqrt(base));
}

/// The cumulated phase function is a cubic without its square term; Cardano's root.
double sampled_rayleigh(double g, double u) {
    const double a = 1.0 + 3.0 * g;
    const double b = 1.0 - g;
    const double q = 0.5 * (2.0 * u - 1.0) * (3.0 * a / b + 1.0);
    const double root = std::sqrt(q * q + std::pow(a / b, 3.0));
    return std::clamp(std::cbrt(q + root) + std::cbrt(q - root), -1.0, 1.0);
}

double sampled_henyey_greenstein(double g, double u) {
    if (g == 0.0) {
        return 2.0 * u - 1.0;
    }
    const double t = (1.0 - g * g) / (1.0 - g + 2.0 * g * u);
    return std::clamp((1.0 + g * g - t * t) / (2.0 * g), -1.0, 1.0);
}

}  // namespace

double Phase::at(double cosine) const {
    return kind == Kind::kRayleigh ? rayleigh(parameter, cosine) : henyey_greenstein(parameter, cosine);
}

double Phase::to_degree(int highest, double cosine) const {
    if (kind == Kind::kRayleigh) {
        return highest < 2 ? 1.0 : at(cosine);  // it has no other term
    }
    double sum = 1.0;
    double moment = 1.0;
    double before = 0.0;
    double legendre = 1.0;
    for (int degree = 1; degree <= highest; ++degree) {
        const double next = ((2 * degree - 1) * cosine * legendre - (degree - 1) * before) / degree;
        before = legendre;
        legendre = next;
        moment *= parameter;
        sum += (2 * degree + 1) * moment * legendre;
    }
    return sum;
}

double Phase::sampled_cosine(double u) const {
    return kind == Kind::kRayleigh ? sampled_rayleigh(parameter, u) : sampled_henyey_greenstein(parameter, u);
}

Vec3 turned_from(Vec3 axis, double cosine, double u) {
    // Any vector that is not along the axis will do to start from.
    const Vec3 helper = std::abs(axis.z) < 0.9 ? Vec3{0.0, 0.0, 1.0} : Vec3{1.0, 0.0, 0.0};
    Vec3 across = helper - dot(helper, axis) * axis;
    across = 1.0 / length(across) * across;
    const Vec3 third{axis.y * across.z - axis.z * across.y, axis.z * across.x - axis.x * across.z,
                     axis.x * across.y - axis.y * across.x};
    const double sine = std::sqrt(std::max(0.0, 1.0 - cosine * cosine));
    const double angle = 2.0 * std::numbers::pi * u;
    const Vec3 turned = cosine * axis + sine * std::cos(angle) * across + sine * std::sin(angle) * third;
    return 1.0 / length(turned) * turned;
}

}  // namespace gloam::montecarlo
