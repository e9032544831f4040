#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

#include "sky/air_ray.hpp"
#include "sky/panorama.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::sky {

/// The standard grid, fixed so that loops over it have a known length: 8 elevations by 24 azimuths, of which
/// 13 lie at different angles from the sun's. The first 13 columns turn right from the sun's azimuth, 15 deg
/// each, to the one opposite; the others turn left from the first beside the sun to the last before the
/// opposite.
inline constexpr std::size_t kGridRows = 8;
inline constexpr std::size_t kGridColumns = 24;
inline constexpr std::size_t kGridSides = 13;
/// The side (angle from the sun's azimuth) on which a column lies, and its azimuth from the sun's.
constexpr std::size_t side_of(std::size_t column) {
    return column < kGridSides ? column : column - (kGridSides - 1);
}
constexpr double azimuth_deg(std::size_t column) {
    return (column < kGridSides ? 15.0 : -15.0) * static_cast<double>(side_of(column));
}

/// One value a direction of a row, or one a side, padded to whole vector registers.
using ByColumn = std::array<float, kGridColumns>;
using BySide = std::array<float, 16>;

/// A row of directions from values by side.
inline ByColumn columns_of(const BySide& sides) {
    ByColumn columns;
    std::copy(sides.begin(), sides.begin() + kGridSides, columns.begin());
    std::copy(sides.begin() + 1, sides.begin() + kGridSides - 1, columns.begin() + kGridSides);
    return columns;
}

/// Tristimulus values X, Y, Z; the fourth place fills a vector register.
using FloatXyz = std::array<float, 4>;

/// The colours that one clear air can send to one viewer, with the wavelengths summed already: cover is grey,
/// so it multiplies tristimulus values as it would multiply spectra. Tabulated by the sun's zenith angle at
/// the point that sends the light; made once for a viewer and an air, it serves every moment and every cloud.
/// Against spectral sums: 0.7 % (tests/sky/sky_mixer.cpp).
class AirPalette {
  public:
    /// Steps of a view ray, those of SkyPainter.
    static constexpr std::size_t kSteps = 24;
    /// Nodes of the sun's zenith angle: the first of ColumnTable's, from the shadow edge to high sun.
    static constexpr std::size_t kSunNodes = 168;
    /// Rows of ColumnTable below 18 km, where cloud may be.
    static constexpr std::size_t kBeamRows = 28;
    /// Scatterers of the air, in the order of the step colours.
    static constexpr std::array kScatterers{Species::kRayleigh, Species::kAerosol, Species::kDust,
                                            Species::kSulphate};
    /// Diffuse light by the sun's zenith angle at the point, every 0.6 deg from 52 to 118 deg.
    static constexpr std::size_t kDiffuseNodes = 111;
    static constexpr double kFirstDiffuse_rad = 52.0 * 0.017453292519943295;
    static constexpr double kDiffuseStep_rad = 0.6 * 0.017453292519943295;
    /// Sides at which the diffuse light of a step is kept, 45 deg apart.
    static constexpr std::array<std::size_t, kDegrees> kDiffuseSides{0, 3, 6, 9, 12};
    /// Rows of DiffuseField below 18 km.
    static constexpr std::size_t kFluxRows = 18;

    /// `air` must outlive the palette.
    AirPalette(const Air& air, double viewer_height_m);

    /// Sunlight that a step scatters once to the viewer, by scatterer, the phase function left out.
    using StepColours = std::array<FloatXyz, kScatterers.size()>;
    /// Diffuse light of a step on the kept sides over its mean over the azimuths.
    using Spread = std::array<FloatXyz, kDiffuseSides.size()>;
    struct Step {
        double middle_m = 0.0;  ///< along the ray
        double height_m = 0.0;
        double reach_rad = 0.0;            ///< zenith angle at node 0: chi = reach (1 - v^2)
        std::vector<StepColours> single;   ///< by sun node, to the sun 20 deg up
        std::vector<FloatXyz> ln_diffuse;  ///< mean over the azimuths, by diffuse node
        std::vector<Spread> spread;        ///< by diffuse node
    };
    /// All view rays of one elevation.
    struct Row {
        Angle elevation;
        AirRay ray;
        std::vector<Step> steps;
        /// ln of what the air between the viewer and a height leaves of sunlight there: [beam row][sun node]
        std::vector<FloatXyz> ln_air;
        /// ln of (diffuse light / pi) falling on cloud from above and from below: [flux row][diffuse node]
        std::vector<FloatXyz> ln_down;
        std::vector<FloatXyz> ln_up;
    };

    const Air& air() const { return *air_; }
    /// ln of (sunlight / pi) at a height: [beam row][sun node]
    const std::vector<FloatXyz>& ln_beam() const { return ln_beam_; }
    double viewer_height_m() const { return viewer_height_m_; }
    const std::vector<Row>& rows() const { return rows_; }

  private:
    void fill_steps(Row& row) const;
    void fill_beams();
    void fill_fluxes();

    const Air* air_;
    double viewer_height_m_;
    std::vector<Row> rows_;
    std::vector<FloatXyz> ln_beam_;
};

}  // namespace gloam::sky
