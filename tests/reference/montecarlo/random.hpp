#pragma once

#include <cstdint>

namespace gloam::montecarlo {

/// A stream of random numbers named by three integers: the same names give the same numbers on any thread.
/// Source: splitmix64 of S. Vigna (constants from memory).
class Stream {
  public:
    Stream(std::uint64_t seed, std::uint64_t batch, std::uint64_t path)
        : state_(mixed(mixed(mixed(seed) ^ batch) ^ path)) {}

    /// Even over (0, 1), never an end.
    double next() {
        state_ += kStep;
        return (static_cast<double>(mixed(state_) >> 11U) + 0.5) * 0x1p-53;
    }

  private:
    static constexpr std::uint64_t kStep = 0x9E3779B97F4A7C15U;

    static constexpr std::uint64_t mixed(std::uint64_t value) {
        value += kStep;
        value = (value ^ (value >> 30U)) * 0xBF58476D1CE4E5B9U;
        value = (value ^ (value >> 27U)) * 0x94D049BB133111EBU;
        return value ^ (value >> 31U);
    }

    std::uint64_t state_;
};

}  // namespace gloam::montecarlo
