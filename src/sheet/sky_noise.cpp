#include "sheet/sky_noise.hpp"

#include <array>
#include <cmath>

namespace gloam::sheet {
namespace {

/// Sixteen directions, evenly round the circle.
constexpr std::array<std::array<double, 2>, 16> kGradients{{{1.0, 0.0},
                                                            {0.9238795325112867, 0.3826834323650898},
                                                            {0.7071067811865476, 0.7071067811865476},
                                                            {0.3826834323650898, 0.9238795325112867},
                                                            {0.0, 1.0},
                                                            {-0.3826834323650898, 0.9238795325112867},
                                                            {-0.7071067811865476, 0.7071067811865476},
                                                            {-0.9238795325112867, 0.3826834323650898},
                                                            {-1.0, 0.0},
                                                            {-0.9238795325112867, -0.3826834323650898},
                                                            {-0.7071067811865476, -0.7071067811865476},
                                                            {-0.3826834323650898, -0.9238795325112867},
                                                            {0.0, -1.0},
                                                            {0.3826834323650898, -0.9238795325112867},
                                                            {0.7071067811865476, -0.7071067811865476},
                                                            {0.9238795325112867, -0.3826834323650898}}};

double fade(double t) {
    return t * t * t * (t * (6.0 * t - 15.0) + 10.0);
}

}  // namespace

std::uint64_t scrambled(std::uint64_t bits) {
    bits = (bits ^ (bits >> 30U)) * 0xBF58476D1CE4E5B9U;
    bits = (bits ^ (bits >> 27U)) * 0x94D049BB133111EBU;
    return bits ^ (bits >> 31U);
}

double Noise::at(double x, double y) const {
    const double left = std::floor(x);
    const double low = std::floor(y);
    const auto pull = [&](double i, double j) {
        const auto column = static_cast<std::uint64_t>(static_cast<std::int64_t>(left + i));
        const auto row = static_cast<std::uint64_t>(static_cast<std::int64_t>(low + j));
        const std::uint64_t bits =
            scrambled(seed_ + column * 0x9E3779B97F4A7C15U + row * 0xD1B54A32D192ED03U);
        const auto& gradient = kGradients[bits >> 60U];
        return gradient[0] * (x - left - i) + gradient[1] * (y - low - j);
    };
    const double right_share = fade(x - left);
    return 1.4142135623730951 * std::lerp(std::lerp(pull(0, 0), pull(1, 0), right_share),
                                          std::lerp(pull(0, 1), pull(1, 1), right_share), fade(y - low));
}

}  // namespace gloam::sheet
