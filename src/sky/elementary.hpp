#pragma once

#include <bit>
#include <cmath>
#include <cstdint>

#include "sky/vector_clones.hpp"

/// Elementary functions in plain single-precision arithmetic without branches, which the compiler turns into
/// vector code when they are called in a loop. The same on every build and machine.
namespace gloam::sky {

/// e^x. Relative error below 2e-6 for -80 < x < 80; beyond, clamped. Source: range reduction and polynomial
/// of Cephes expf (S. L. Moshier).
GLOAM_INLINE float exponential(float x) {
    constexpr float kLog2E = 1.44269504F;
    constexpr float kLn2High = 0.693359375F;
    constexpr float kLn2Low = -2.12194440e-4F;
    constexpr float kRounder = 12582912.0F;  // 1.5 * 2^23: adding it rounds to an integer
    const float low = x < -87.0F ? -87.0F : x;
    const float v = low > 87.0F ? 87.0F : low;
    const float whole = (v * kLog2E + kRounder) - kRounder;
    const float f = (v - whole * kLn2High) - whole * kLn2Low;
    float p = 1.9875691500e-4F;
    p = p * f + 1.3981999507e-3F;
    p = p * f + 8.3334519073e-3F;
    p = p * f + 4.1665795894e-2F;
    p = p * f + 1.6666665459e-1F;
    p = p * f + 5.0000001201e-1F;
    const float mantissa = p * f * f + f + 1.0F;
    const auto exponent = static_cast<std::int32_t>(whole) + 127;
    return mantissa * std::bit_cast<float>(exponent << 23);
}

/// ln x for normal x > 0; error below 2e-6 from 1e-6 to 2. Source: polynomial of Cephes
/// logf.
GLOAM_INLINE float logarithm(float x) {
    constexpr std::int32_t kSqrtHalf = 0x3F3504F3;
    const auto bits = std::bit_cast<std::int32_t>(x);
    const std::int32_t exponent = (bits - kSqrtHalf) >> 23;
    const float f = std::bit_cast<float>(bits - exponent * (1 << 23)) - 1.0F;  // sqrt(1/2) - 1 .. sqrt(2) - 1
    float p = 7.0376836292e-2F;
    p = p * f - 1.1514610310e-1F;
    p = p * f + 1.1676998740e-1F;
    p = p * f - 1.2420140846e-1F;
    p = p * f + 1.4249322787e-1F;
    p = p * f - 1.6668057665e-1F;
    p = p * f + 2.0000714765e-1F;
    p = p * f - 2.4999993993e-1F;
    p = p * f + 3.3333331174e-1F;
    const float square = f * f;
    const auto power = static_cast<float>(exponent);
    return (p * f * square - 0.5F * square + f - power * 2.12194440e-4F) + power * 0.693359375F;
}

/// Cube root of a normal x > 0, within 1e-6 of itself: a third of the exponent, then two steps of Halley.
GLOAM_INLINE float cube_root(float x) {
    constexpr std::int32_t kTwoThirdsOfBias = 0x2A517D47;
    float root = std::bit_cast<float>(std::bit_cast<std::int32_t>(x) / 3 + kTwoThirdsOfBias);
    for (int step = 0; step < 2; ++step) {
        const float cube = root * root * root;
        root = root * (cube + 2.0F * x) / (2.0F * cube + x);
    }
    return root;
}

/// Arc sine for |x| <= 0.6, error below 6e-7: its series, the tail folded into the last term.
GLOAM_INLINE float arc_sine(float x) {
    const float s = x * x;
    float p = 0.0242F;
    p = p * s + 0.02237216F;
    p = p * s + 0.03038194F;
    p = p * s + 0.04464286F;
    p = p * s + 0.075F;
    p = p * s + 0.16666667F;
    return x + x * s * p;
}

/// Sine for |x| <= 0.8, error below 6e-7: its series.
GLOAM_INLINE float sine(float x) {
    const float s = x * x;
    float p = 2.7557319e-6F;
    p = p * s - 1.9841270e-4F;
    p = p * s + 8.3333333e-3F;
    p = p * s - 0.16666667F;
    return x + x * s * p;
}

/// Angle of the point (x, y), y >= 0, from 0 to pi; error below 2e-6. (0, 0) gives 0. Source: polynomial of
/// Cephes atanf after one halving by the addition theorem.
GLOAM_INLINE float angle_of(float x, float y) {
    constexpr float kPi = 3.14159265F;
    const float ax = x < 0.0F ? -x : x;
    const float low = ax < y ? ax : y;
    const float high = (ax < y ? y : ax) + 1e-30F;
    // atan(t) = pi/8 + atan((t - tan(pi/8)) / (1 + t tan(pi/8))) brings t in 0..1 to |u| < 0.42.
    constexpr float kTan = 0.414213562F;
    const float u = (low - high * kTan) / (high + low * kTan);
    const float s = u * u;
    float p = 8.05374449538e-2F;
    p = p * s - 1.38776856032e-1F;
    p = p * s + 1.99777106478e-1F;
    p = p * s - 3.33329491539e-1F;
    const float first = 0.392699082F + (u + u * s * p);
    const float in_quadrant = ax < y ? 0.5F * kPi - first : first;
    return x < 0.0F ? kPi - in_quadrant : in_quadrant;
}

}  // namespace gloam::sky
