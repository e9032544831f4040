#pragma once

#include <complex>
#include <span>
#include <vector>

namespace gloam::montecarlo {

/// Light scattered by one sphere.
struct MieSphere {
    double extinction = 0.0;  ///< efficiency: cross-section over that of the sphere
    double scattering = 0.0;
    double asymmetry = 0.0;
    /// (|S1|^2 + |S2|^2) / 2 at each cosine asked for.
    std::vector<double> intensity;
};

/// Mie's series for size parameter `x` = 2 pi radius / wavelength and refractive index `m` (imaginary part
/// >= 0 absorbs). Source: Bohren and Huffman 1983, chapter 4 and appendix A (from memory): logarithmic
/// derivative by downward recurrence. x from 0.05 to 1000.
MieSphere mie_sphere(double x, std::complex<double> m, std::span<const double> cosines);

}  // namespace gloam::montecarlo
