#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "sky/air_light.hpp"
#include "sky/cloud_field.hpp"
#include "sky/colour.hpp"

namespace gloam::sky {

/// Directions of a panorama. Azimuths count from the sun's, positive to the right of it.
struct PanoramaGrid {
    std::vector<Angle> elevations;  ///< rising, above 0
    std::vector<Angle> azimuths;

    /// The grid that colour strength is read on: 8 elevations, 24 azimuths.
    static PanoramaGrid standard();
};

/// One component of what is seen in a direction: a share of the solid angle and its light.
struct Patch {
    static constexpr std::size_t kClearAir = static_cast<std::size_t>(-1);
    static constexpr std::size_t kLand = static_cast<std::size_t>(-2);  ///< in front of the sky (skyline.hpp)
    double share = 0.0;
    Xyz light;                      ///< cd m-2
    std::size_t layer = kClearAir;  ///< of the cloud field
    bool lit = false;               ///< the part of the layer that carries the beam's light
};

/// What is seen in one direction: clear air, and of each layer a lit and an unlit part. Components are kept
/// apart, since the colour of a mixture says nothing of the colour of its parts.
struct PanoramaCell {
    static constexpr std::size_t kMost = 7;
    std::array<Patch, kMost> patches;
    std::size_t count = 0;

    void add(const Patch& patch) {
        if (patch.share > 0.0) {
            patches[count++] = patch;
        }
    }
    Xyz mean() const;
};

/// The sun of one moment.
struct SunState {
    Angle elevation;  ///< true, of the disc's centre, at the viewer
    double distance_au = 1.0;
};

/// The sky dome over one stand at one instant, in absolute CIE XYZ. Ground, water and the sun's own disc are
/// not in it.
struct Panorama {
    PanoramaGrid grid;
    SunState sun;
    std::vector<PanoramaCell> cells;  ///< [elevation][azimuth]

    const PanoramaCell& cell(std::size_t elevation, std::size_t azimuth) const {
        return cells[elevation * grid.azimuths.size() + azimuth];
    }
};

/// Paints skies over one viewer through one atmosphere; made once, used for every moment and cloud field.
/// Accuracy: clear air as docs/sky.md; cloud light within a factor 1.35 (base-lit) to 3 (fronts, sun above)
/// of a Monte Carlo.
class SkyPainter {
  public:
    /// `steps` along a view ray: with 24 colour strength is within one point of what 90 give (0.9 measured,
    /// tests/sky). `air` must outlive the painter.
    SkyPainter(const Air& air, double viewer_height_m, PanoramaGrid grid, int steps = 24);

    /// The sun's light alone; see add_night() for the rest. Sun elevations from -18 to +20 deg.
    Panorama paint(const CloudField& clouds, const SunState& sun) const;

  private:
    /// All view rays of one elevation.
    struct Row {
        Angle elevation;
        AirRay ray;
        std::vector<double> ground_m;  ///< along the ground to the middle of each step
    };

    const Air* air_;
    double viewer_height_m_;
    PanoramaGrid grid_;
    std::vector<Row> rows_;

    friend class CellPainter;
};

}  // namespace gloam::sky
