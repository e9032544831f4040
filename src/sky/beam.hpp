#pragma once

#include <vector>

#include "sky/atmosphere.hpp"
#include "sky/columns.hpp"

namespace gloam::sky {

/// Band values in single precision, for tables and inner loops.
using FloatSpectrum = float[kBands];

/// Transmission of the direct sunbeam through one atmosphere to any point: extinction along the refracted
/// ray, thinning by refraction, mean over the sun's disc. Accuracy: that of the column table; the logarithm
/// is interpolated, at constant distance from the shadow edge.
class BeamTable {
  public:
    BeamTable(const ColumnTable& columns, const Optics& optics, double aerosol_scale_height_m);

    /// ln of the transmission at a place of the column table, per band. Below -80 it is dark.
    void ln_transmission(const ColumnPlace& place, FloatSpectrum& ln_t) const;
    /// Transmission at a point; zeros in the shadow. `sun_zenith_rad` is true, at the point's own vertical.
    Spectrum transmission(double height_m, double sun_zenith_rad) const;

    const ColumnTable& columns() const { return *columns_; }

  private:
    using Depths = FloatSpectrum[kSpecies];
    void fill_node(std::size_t row, std::size_t node, const Depths& depths, double aerosol_scale_height_m);

    const ColumnTable* columns_;
    std::vector<float> ln_t_;  ///< [row][node][band]
};

}  // namespace gloam::sky
