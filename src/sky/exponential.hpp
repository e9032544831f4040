#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>

namespace gloam::sky {

/// Replaces each value by its exponential. Plain arithmetic that the compiler turns into vector code; results
/// are the same on every build. Relative error below 2e-6 for -80 < x < 80; beyond, clamped. Source: range
/// reduction and polynomial of Cephes expf (S. L. Moshier).
template <std::size_t n>
void exponentiate(float (&x)[n]) {
    constexpr float kLog2E = 1.44269504F;
    constexpr float kLn2High = 0.693359375F;
    constexpr float kLn2Low = -2.12194440e-4F;
    constexpr float kRounder = 12582912.0F;  // 1.5 * 2^23: adding it rounds to an integer
    for (std::size_t i = 0; i < n; ++i) {
        const float low = x[i] < -87.0F ? -87.0F : x[i];
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
        x[i] = mantissa * std::bit_cast<float>(exponent << 23);
    }
}

}  // namespace gloam::sky
