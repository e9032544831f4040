#pragma once

#include <cstdint>

namespace gloam::sheet {

/// Smooth seeded noise over a plane: mean 0, within -1..1, no feature much larger than 1 or smaller than a
/// half. Gradient noise after Perlin 2002, "Improving noise", ACM Trans. Graph. 21, 681 (from memory), with
/// gradients of any direction. The same seed gives the same plane on every machine.
class Noise {
  public:
    explicit Noise(std::uint64_t seed) : seed_(seed) {}

    double at(double x, double y) const;

  private:
    std::uint64_t seed_;
};

/// Bits that look random, the same for the same arguments (the finaliser of splitmix64, Vigna, from memory).
std::uint64_t scrambled(std::uint64_t bits);

}  // namespace gloam::sheet
