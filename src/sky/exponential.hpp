#pragma once

#include <cstddef>

#include "sky/elementary.hpp"

namespace gloam::sky {

/// Replaces each value by its exponential.
template <std::size_t n>
GLOAM_INLINE void exponentiate(float (&x)[n]) {
    // Whole registers first, so that the rest is one of half the width and not single values.
    constexpr std::size_t kWhole = n / 8 * 8;
    for (std::size_t i = 0; i < kWhole; ++i) {
        x[i] = exponential(x[i]);
    }
    for (std::size_t i = kWhole; i < n; ++i) {
        x[i] = exponential(x[i]);
    }
}

}  // namespace gloam::sky
