#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "geo/light_path_grid.hpp"

namespace gloam::sky {

enum class CloudClass : std::size_t { kLow, kMiddle, kHigh };

/// How cloud of a class scatters and how it is broken up. All values are judgement to be replaced by logged
/// outcomes (docs/sky.md says why each, and how much the odds depend on it).
struct CloudOptics {
    double optical_depth = 0.0;
    double asymmetry = 0.0;    ///< of the phase function
    double cell_m = 0.0;       ///< D: correlation length of the cover along a sun ray
    double view_cell_m = 0.0;  ///< Dv: size of the elements that close gaps in perspective
    double lit_share_near =
        0.0;  ///< share of the visible cloud that carries the beam light, within 60 deg of the sun's azimuth
    double lit_share_far = 0.0;  ///< the same beyond

    /// Share of diffuse light that the layer returns.
    double diffuse_albedo() const;
};

/// Optics of a class, with its optical depth times `depth_factor`. Checks the energy bound of
/// lit_from_below().
CloudOptics cloud_optics(CloudClass kind, double depth_factor = 1.0);

/// One layer of the sky: its cover along the light path, and one base and top for all of it.
struct CloudLayer {
    CloudClass kind = CloudClass::kLow;
    CloudOptics optics;
    double base_m = 0.0;  ///< above mean sea level
    double top_m = 0.0;
    geo::LightPathGrid::Values cover{};  ///< fraction 0..1
};

/// Mean cover of a layer round the viewer: 50 km towards the sun and away, 40 km to either side.
double cover_around(const CloudLayer& layer);

/// A point of the light path: towards the sun, to the right of it, and height above mean sea level.
struct PathPoint {
    double along_m = 0.0;
    double aside_m = 0.0;
    double height_m = 0.0;
};

/// One passage of a sun ray through a layer.
struct CloudPassage {
    std::size_t layer = 0;
    double from_m = 0.0;  ///< along the ground, in the coordinates of the light path
    double to_m = 0.0;
    double ln_free = 0.0;  ///< ln of the probability that the passage is free of cloud
};

/// The cloud of one moment, and the question every lit thing asks it: is the ray to the sun free?
class CloudField {
  public:
    /// Layers from low to high. `land` is the edge of land that stands up-sun (see land_edge()), a line of
    /// points; sun rays that pass below it are cut.
    explicit CloudField(std::vector<CloudLayer> layers, std::vector<PathPoint> land = {});

    const std::vector<CloudLayer>& layers() const { return layers_; }
    /// Cover of a layer at a place; constant beyond the ends of the path.
    double cover(std::size_t layer, double along_m, double aside_m) const;

    /// Probability that the ray from `from` to the sun meets no cloud and no land, `apparent_zenith_rad`
    /// being the sun's at that point. Passages through cells of length D (Poisson line, exponential-random
    /// overlap); at least one cell a passage; layers independent.
    double sun_free(const PathPoint& from, double apparent_zenith_rad) const;
    /// The same, passage by passage: what a reason is made of.
    std::vector<CloudPassage> passages(const PathPoint& from, double apparent_zenith_rad) const;

  private:
    template <class Visit>
    void visit_passages(const PathPoint& from, double apparent_zenith_rad, const Visit& visit) const;
    bool land_cuts(const PathPoint& from, double apparent_zenith_rad) const;
    double mean_ln_clear(std::size_t layer, double aside_m, double from_m, double to_m) const;

    std::vector<CloudLayer> layers_;
    std::vector<PathPoint> land_;
    /// Integral of ln(1 - cover) along each line from its first point, metres.
    std::vector<std::array<std::array<double, geo::LightPathGrid::kPoints>, geo::LightPathGrid::kLines>>
        integral_;
};

/// Height of a refracted sun ray above the point it starts from: y(s) = h - s sin d + s^2 / (2 Re), d being
/// the apparent depression of the sun, on an Earth of the radius Re that reproduces the refracted grazing
/// angle.
struct SunRay {
    SunRay(double height_m, double apparent_zenith_rad);

    double height_m;
    double sin_depression;
    double cos_depression;
    double effective_radius_m;

    double height_at(double path_m) const {
        return height_m - path_m * sin_depression + path_m * path_m / (2.0 * effective_radius_m);
    }
    double tangent_path_m() const { return effective_radius_m * sin_depression; }
};

}  // namespace gloam::sky
