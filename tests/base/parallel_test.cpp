#include "base/parallel.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

namespace gloam {
namespace {

std::vector<double> sines(std::size_t count, unsigned threads) {
    std::vector<double> values(count);
    parallel_for(
        count, [&](std::size_t i) { values[i] = std::sin(static_cast<double>(i)); }, threads);
    return values;
}

TEST(ParallelFor, GivesTheSameOnAnyNumberOfThreads) {
    const auto alone = sines(10007, 1);
    for (const unsigned threads : {0U, 2U, 3U, 16U}) {
        EXPECT_EQ(sines(10007, threads), alone) << threads << " threads";
    }
}

TEST(ParallelFor, VisitsEachIndexOnce) {
    for (const std::size_t count : {0U, 1U, 2U, 5U, 1000U}) {
        std::vector<std::atomic<int>> visits(count);
        parallel_for(
            count, [&](std::size_t i) { ++visits[i]; }, 4);
        for (std::size_t i = 0; i < count; ++i) {
            EXPECT_EQ(visits[i], 1) << i << " of " << count;
        }
    }
}

TEST(ParallelFor, RethrowsTheExceptionOfTheLowestIndexAfterAllAreDone) {
    for (const unsigned threads : {1U, 2U, 8U}) {
        std::atomic<int> done{0};
        const auto work = [&](std::size_t i) {
            ++done;
            if (i % 10 == 7) {
                throw std::runtime_error(std::to_string(i));
            }
        };
        try {
            parallel_for(100, work, threads);
            ADD_FAILURE() << "nothing was thrown";
        } catch (const std::runtime_error& error) {
            EXPECT_STREQ(error.what(), "7");
        }
        EXPECT_EQ(done, 100);
    }
}

}  // namespace
}  // namespace gloam
