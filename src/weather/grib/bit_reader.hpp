#pragma once

#include "weather/grib/octets.hpp"

namespace gloam::weather {

/// Unsigned numbers of a fixed width of 0..kMostBits, one after the other from the start of an octet, the
/// highest bit first. The caller keeps within the octets.
class BitReader {
  public:
    static constexpr std::uint64_t kMostBits = 56;  // an octet more always fits beside

    BitReader(Octets octets, std::uint64_t width)
        : next_(octets.data()), width_(width), mask_((std::uint64_t{1} << width) - 1) {}

    std::uint64_t next() {
        for (; held_ < width_; held_ += 8) {
            bits_ = (bits_ << 8U) | std::to_integer<std::uint64_t>(*next_++);
        }
        held_ -= width_;
        return (bits_ >> held_) & mask_;
    }

  private:
    const std::byte* next_;
    std::uint64_t width_;
    std::uint64_t mask_;
    std::uint64_t bits_ = 0;  ///< read and not yet given out: the lowest `held_`
    std::uint64_t held_ = 0;
};

}  // namespace gloam::weather
