#pragma once

#include "sky/air_palette.hpp"

namespace gloam::sky {

/// X, Y and Z of a whole row of directions.
using ColumnXyz = std::array<ByColumn, 3>;

/// An air's palette at one sun elevation: the light of every step of every view ray. Serves every cloud field
/// of that moment.
class SkyPalette {
  public:
    struct Row {
        BySide cosine{};  ///< between view ray and sun
        std::array<ColumnXyz, AirPalette::kSteps> single{};
        /// Steps whose single light counts on some side: a thousandth of what the row sends there.
        std::array<bool, AirPalette::kSteps> shines{};
        /// Diffuse light from the viewer to the beginning of each step, and to the ray's end.
        std::array<ColumnXyz, AirPalette::kSteps + 1> diffuse_until{};
    };

    /// Sun elevations from -18 to +20 deg. `palette` must outlive this.
    SkyPalette(const AirPalette& palette, Angle sun_elevation);

    const AirPalette& air() const { return *palette_; }
    double sun_zenith_rad() const { return sun_zenith_rad_; }
    const std::vector<Row>& rows() const { return rows_; }

  private:
    void fill(const AirPalette::Row& from, Row& row) const;

    const AirPalette* palette_;
    double sun_zenith_rad_;
    std::vector<Row> rows_;
};

}  // namespace gloam::sky
