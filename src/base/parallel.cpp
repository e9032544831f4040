#include "base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace gloam {

void parallel_for(std::size_t count, const std::function<void(std::size_t)>& work, unsigned threads) {
    const std::size_t wanted = threads == 0 ? std::max(1U, std::thread::hardware_concurrency()) : threads;
    std::vector<std::exception_ptr> failures(count);
    std::atomic<std::size_t> next{0};
    const auto run = [&] {
        for (std::size_t i = next++; i < count; i = next++) {
            try {
                work(i);
            } catch (...) {
                failures[i] = std::current_exception();
            }
        }
    };
    {
        std::vector<std::jthread> pool;
        for (std::size_t k = 1; k < std::min(wanted, count); ++k) {
            pool.emplace_back(run);
        }
        run();
    }
    for (const auto& failure : failures) {
        if (failure) {
            std::rethrow_exception(failure);
        }
    }
}

}  // namespace gloam
