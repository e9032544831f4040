#pragma once

#include <cstddef>
#include <functional>

namespace gloam {

/// Calls `work(i)` once for every i in [0, count), on up to `threads` threads (0: one per core). Each i must
/// write only to places of its own; then the result does not depend on the number of threads. Rethrows the
/// exception of the lowest i that threw.
void parallel_for(std::size_t count, const std::function<void(std::size_t)>& work, unsigned threads = 0);

}  // namespace gloam
