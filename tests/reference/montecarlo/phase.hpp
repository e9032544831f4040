#pragma once

#include "reference/montecarlo/geometry.hpp"

namespace gloam::montecarlo {

/// How one species scatters.
struct Phase {
    enum class Kind { kRayleigh, kHenyeyGreenstein };
    Kind kind = Kind::kHenyeyGreenstein;
    double parameter = 0.0;  ///< depolarisation g of Rayleigh, or asymmetry (0: isotropic)

    /// Phase function, mean over the sphere 1.
    double at(double cosine) const;
    /// The Legendre series of the phase function to the term of degree `highest`; 0: isotropic.
    double to_degree(int highest, double cosine) const;
    /// A scattering cosine distributed as the phase function; `u` even over (0, 1).
    double sampled_cosine(double u) const;
};

/// The direction at `cosine` from unit vector `axis`, turned about it by 2 pi `u`.
Vec3 turned_from(Vec3 axis, double cosine, double u);

}  // namespace gloam::montecarlo
