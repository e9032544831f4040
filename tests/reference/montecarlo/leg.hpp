#pragma once

#include <vector>

#include "reference/montecarlo/sun_leg.hpp"

namespace gloam::montecarlo {

/// The band by whose light collisions are put where the sun shines.
inline constexpr std::size_t kLitBand = 8;

/// A straight piece of a path, from a point to the ground or out of the air, in steps between which columns
/// are linear.
class Leg {
  public:
    /// Follows `direction` (unit) from `start`, km from the sphere's centre; `to_sun` is a unit vector.
    void cast(const SunBeam& beam, Vec3 start, Vec3 direction, Vec3 to_sun);

    bool meets_ground() const { return meets_ground_; }
    Vec3 at(double path_km) const { return start_ + path_km * direction_; }
    double length_km() const { return ends_km_.back(); }

    /// Optical depth of the whole leg in a band.
    double depth(std::size_t band) const { return depth_at(columns_.back(), band); }

    /// A place on the leg, with what lies before it.
    struct Place {
        double path_km;
        std::size_t step;
        PerSpecies columns;  ///< from the start
    };
    /// Where the optical depth in `band` reaches `depth`.
    Place at_depth(double depth, std::size_t band) const;
    /// Where the share `u` of the light that the sun sends along the leg has been met; needs lit().
    Place at_lit_share(double u) const;
    /// Whether any of the leg is in the sun.
    bool lit() const { return lit_sum_ > 0.0; }
    /// Density per km with which at_lit_share() comes upon a place.
    double lit_density_per_km(const Place& place) const;
    /// Mean extinction per km of the step around a place.
    double extinction_per_km(const Place& place, std::size_t band) const;

    double depth_at(const PerSpecies& columns, std::size_t band) const;

  private:
    Place within(std::size_t step, double share) const;
    double lit_in_step(const SunBeam& beam, std::size_t step, Vec3 to_sun) const;

    const Medium* medium_ = nullptr;
    Vec3 start_, direction_;
    bool meets_ground_ = false;
    std::vector<double> ends_km_;      ///< step i reaches from end i to end i + 1
    std::vector<PerSpecies> columns_;  ///< from the start to each end
    std::vector<double> lit_;          ///< light scattered once from each step, in any unit
    double lit_sum_ = 0.0;
};

}  // namespace gloam::montecarlo
