#include "sky/colour.hpp"

#include <cmath>

namespace gloam::sky {
namespace {

double lab_curve(double ratio) {
    constexpr double kEdge = 6.0 / 29.0;
    return ratio > kEdge * kEdge * kEdge ? std::cbrt(ratio) : ratio / (3.0 * kEdge * kEdge) + 4.0 / 29.0;
}

}  // namespace

Chromaticity chromaticity(const Xyz& colour) {
    const double sum = colour.x + colour.y + colour.z;
    return {colour.x / sum, colour.y / sum};
}

Lab lab_of(const Xyz& colour) {
    const double fx = lab_curve(colour.x / kD65.x);
    const double fy = lab_curve(colour.y / kD65.y);
    const double fz = lab_curve(colour.z / kD65.z);
    return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

LinearRgb linear_rgb(const Xyz& c) {
    return {3.2406 * c.x - 1.5372 * c.y - 0.4986 * c.z, -0.9689 * c.x + 1.8758 * c.y + 0.0415 * c.z,
            0.0557 * c.x - 0.2040 * c.y + 1.0570 * c.z};
}

Xyz xyz_of(const LinearRgb& rgb) {
    const auto& [r, g, b] = rgb;
    return {0.4124 * r + 0.3576 * g + 0.1805 * b, 0.2126 * r + 0.7152 * g + 0.0722 * b,
            0.0193 * r + 0.1192 * g + 0.9505 * b};
}

}  // namespace gloam::sky
