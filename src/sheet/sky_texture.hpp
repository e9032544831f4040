#pragma once

#include <array>
#include <cstdint>

#include "sheet/sky_noise.hpp"
#include "sky/cloud_field.hpp"

namespace gloam::sheet {

/// A place in the plane of a layer's base, metres from the point above the viewer.
struct PlanePoint {
    double east_m = 0.0;
    double north_m = 0.0;
};

/// How cloud of a class is drawn. All judgement: what looks like its kind.
struct CloudForm {
    double patch_weight = 0.0;  ///< of fields of cloud, as large as the cells of the cover
    double element_over_view_cell =
        1.0;                 ///< size of the elements over that of those that close gaps in perspective
    double stretch = 1.0;    ///< length of an element over its width: fibres
    double bend = 0.0;       ///< how far rows and fibres wander, of the element's size
    int puffs = 0;           ///< octaves that are rounded heaps with creases between them
    double rough = 0.5;      ///< weight of each octave over that of the one before
    double soft_edge = 0.5;  ///< share of the sky over which an edge fades
    double shade = 0.0;      ///< how much darker thick cloud is than thin
    double relief = 1.0;     ///< how far light gathers on slopes
};
CloudForm form_of(sky::CloudClass kind);

/// Seeded thickness of one cloud layer over its plane, without unit or fixed spread: what counts is which of
/// two places has the thicker cloud.
class CloudTexture {
  public:
    CloudTexture(const sky::CloudLayer& layer, std::uint64_t seed);

    /// Details much smaller than `finest_m` are left out.
    double thickness(const PlanePoint& at, double finest_m) const;
    double element_m() const { return element_m_; }

  private:
    CloudForm form_;
    double patch_m_;
    double element_m_;
    double cos_rows_;
    double sin_rows_;
    Noise patches_;
    Noise bends_;
    std::array<Noise, 2> elements_;
};

}  // namespace gloam::sheet
