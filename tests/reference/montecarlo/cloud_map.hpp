#pragma once

#include <cstdint>
#include <vector>

namespace gloam::montecarlo {

/// What a broken layer looks like from above.
struct CloudPattern {
    double cover = 1.0;
    double element_km = 0.3;             ///< side of the smallest piece
    std::vector<double> scales_km{0.3};  ///< of the noise that decides where cloud is, equally strong
    double step_km = 0.0;  ///< the base of every patch of 3 km stands up to this higher or lower
};

/// Cloud or none on a square tile that repeats: noise of several scales, cut so that the cover comes out.
class CloudMap {
  public:
    CloudMap(const CloudPattern& pattern, std::uint64_t seed);

    double element_km() const { return element_km_; }
    double size_km() const { return element_km_ * static_cast<double>(kSide); }
    double step_km() const { return step_km_; }
    /// Places are tile coordinates and may lie beyond it.
    bool cloudy(double x_km, double y_km) const;
    /// How much higher than its layer a piece stands.
    double lift_km(double x_km, double y_km) const;

  private:
    static constexpr std::size_t kSide = 1024;

    std::size_t node(double x_km, double y_km) const;

    double element_km_, step_km_;
    std::vector<std::uint8_t> cloudy_;
    std::vector<float> lift_km_;
};

}  // namespace gloam::montecarlo
