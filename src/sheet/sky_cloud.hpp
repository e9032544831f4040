#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "outlook/member_sky.hpp"
#include "sheet/sky_light.hpp"
#include "sheet/sky_ranks.hpp"
#include "sheet/sky_texture.hpp"

namespace gloam::sheet {

/// What a drawn cloud is in one direction.
struct DrawnCloud {
    double opacity = 0.0;  ///< how much of the direction it closes
    sky::Xyz light;        ///< cd m-2, of the cloud
    double veil = 1.0;     ///< what the cloud itself lets through of a small light behind it
};

/// How much of each point of the lattice the layers below leave: in the mixture, and as drawn.
struct OpenSky {
    std::vector<double> mixture;
    std::vector<double> drawn;
};

/// One layer of a sky, drawn: seeded texture in the plane of its base, so that perspective comes by itself,
/// thresholded so that in each neighbourhood what is seen of the layer, and of its lit part, has the share
/// that it has in the panorama. Lit first where the texture slopes towards the sun.
class CloudSheet {
  public:
    /// Draws layer `layer` of `seen`; `lights` are those of its panorama. Details smaller than `pixel_rad`
    /// are left out. Takes from `open` what this layer closes.
    CloudSheet(const outlook::SeenSky& seen, std::size_t layer, const SkyLights& lights, std::uint64_t seed,
               double pixel_rad, OpenSky& open);

    DrawnCloud at(const SkyDirection& direction, const LayerLight& light) const;

  private:
    /// The texture in a direction.
    struct Reading {
        double thickness = 0.0;
        double facing = 0.0;  ///< how much thinner the cloud is on the sun's side
        double path_m = 0.0;
        double mu = 1.0;  ///< sine of the view's elevation at the cloud
        /// Elements far off that are hardly higher than a pixel are not drawn one by one.
        double shown = 1.0;
    };
    /// A point of the lattice, while the layer is fitted.
    struct Spot {
        SkyDirection direction;
        double solid_angle = 0.0;
        Neighbours near;
        Reading reading;
        LayerLight light;
        sky::Xyz behind;
        double open = 0.0;    ///< what the drawn layers below leave
        double wanted = 0.0;  ///< what is seen of the layer in the mixture
        double seen = 0.0;    ///< and as drawn
        double rank = 0.0;    ///< of the thickness, later of the brightness
    };

    Reading read(const SkyDirection& direction) const;
    double opacity(double rank, double closed, const Reading& reading) const;
    /// Share of the lit light.
    double lit(double rank, double lit_share, const Reading& reading) const;
    double brightness(const SkyDirection& direction, const Reading& reading, double depth) const;

    std::vector<Spot> spots_of(std::size_t layer, const SkyLights& lights, const OpenSky& open) const;
    void rank_thickness(std::vector<Spot>& spots);
    void correct_closed(std::vector<Spot>& spots);
    void rank_brightness(std::vector<Spot>& spots);
    void correct_lit(const std::vector<Spot>& spots);

    CloudForm form_;
    CloudTexture texture_;
    double viewer_radius_m_;
    double base_radius_m_;
    double optical_depth_;
    Azimuth sun_azimuth_;
    double sun_up_;  ///< 0 to 1 from half a degree below the level to half above
    double pixel_rad_;
    double facing_scale_ = 1.0;
    std::optional<LocalRanks> thickness_ranks_;
    std::optional<LocalRanks> brightness_ranks_;
    std::optional<LocalMean> mean_depth_;
    ShareCorrection closed_correction_;
    ShareCorrection lit_correction_;
};

}  // namespace gloam::sheet
