#pragma once

#include <cstddef>

#include "sky/elementary.hpp"

namespace gloam::sky {

/// Replaces each value by its exponential.
template <std::size_t n>
GLOAM_INLINE void exponentiate(float (&x)[n]) {
    for (std::size_t i = 0; i < n; ++i) {
        x[i] = exponential(x[i]);
    }
}

}  // namespace gloam::sky
