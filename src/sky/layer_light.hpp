#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "sky/cloud_field.hpp"
#include "sky/free_levels.hpp"
#include "sky/seen_sun.hpp"
#include "sky/sky_palette.hpp"

namespace gloam::sky {

/// Place of a height between two rows of a table of an AirPalette.
struct RowPlace {
    std::size_t low;
    float share;
};

/// What cloud of one layer in one row would send, for full light and full cover.
struct RowElements {
    double path_m = 0.0;
    float ground_m = 0.0F;
    float behind = 0.0F;
    BySide under;                   ///< sine of the sun's depression at the base
    std::array<BySide, 3> base;     ///< beam times what lit_from_below() makes of it
    std::array<BySide, 3> through;  ///< beam at the top times what comes through whatever the cover
    std::array<BySide, 3> skin;     ///< the same, what the lit skin on top would send if nothing hid it
    float thin = 0.0F;              ///< share of that which cloud in front lets through
    std::array<BySide, 3> fronts{};
    std::array<BySide, 3> diffuse;
};

/// Shares of the diffuse light of clear air that fall on a layer from above and from below (diffuse_left()).
struct DiffuseLeft {
    float above = 1.0F;
    float below = 1.0F;
};

/// Sunlight at one height of a layer, by node of the sun's zenith angle.
class BeamAtHeight {
  public:
    BeamAtHeight(const AirPalette& palette, double height_m, double base_m);

    /// Light by side, through the air in front of the layer's base.
    void light(const AirPalette::Row& row, const BySide& zenith_rad, std::array<BySide, 3>& light) const;

  private:
    RowPlace base_;
    float reach_rad_;
    std::array<FloatXyz, AirPalette::kSunNodes> ln_;
};

/// The light of one layer under one sun: lit_from_below() and its like of cloud_light.hpp, all sides at once.
class LayerLight {
  public:
    /// `palette` must outlive this.
    LayerLight(const SkyPalette& palette, const CloudLayer& layer, const SeenLayer& seen, DiffuseLeft left);

    /// What it sends in a row of directions.
    void in_row(std::size_t row, RowElements& elements) const;

  private:
    const SkyPalette* palette_;
    CloudOptics optics_;
    DiffuseLeft left_;
    double base_m_;
    BeamAtHeight base_;
    BeamAtHeight middle_;
    BeamAtHeight top_;
    RowPlace flux_;
    SeenSun base_sun_;
    SeenSun top_sun_;
};

}  // namespace gloam::sky
