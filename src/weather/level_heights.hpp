#pragma once

#include <span>
#include <vector>

#include "weather/field.hpp"

namespace gloam::weather {

/// Pressures that bound the slabs for which levels stand, one more than there are levels. `levels_pa` falls
/// from the ground up. Between two levels: half-way. Below the lowest: half-way to 1013.25 hPa, or the level
/// itself if it lies at higher pressure. Above the highest: as far as its lower limit is away, but no further
/// than half its pressure and 1 hPa.
std::vector<double> slab_limits_pa(std::span<const double> levels_pa);

/// A pressure between the two height fields that enclose it.
struct PressureSurface {
    double standard_m;
    const Field* below = nullptr;
    const Field* above = nullptr;
    double share_above = 0.0;
};

/// Heights of pressure surfaces over each cell of a grid: the standard atmosphere, plus the deviation of the
/// geopotential heights from it, linear in the logarithm of pressure between their levels and constant beyond
/// them.
class LevelHeights {
  public:
    /// `heights`: geopotential height fields by falling pressure, all on one grid, or none. A masked height
    /// deviates by 0. Keeps the pointers.
    LevelHeights(std::span<const double> pressures_pa, std::span<const Field* const> heights);

    /// Geometric height above mean sea level, metres, of the pressure of this index over this cell.
    double height_m(std::size_t pressure, std::size_t cell) const;

  private:
    std::vector<PressureSurface> surfaces_;
};

/// The same for a single pressure over one cell.
double height_of_pressure_m(double pressure_pa, std::span<const Field* const> heights, std::size_t cell);

}  // namespace gloam::weather
