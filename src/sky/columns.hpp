#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "sky/atmosphere.hpp"

namespace gloam::sky {

/// Half the angular width of the sun's disc, radians (0.267 deg at 1 au).
inline constexpr double kSunRadius_rad = 0.267 * 0.017453292519943295;

/// Where a point (height, true zenith angle of the sun) lies in tables that share the axes below.
struct ColumnPlace {
    std::size_t row = 0;      ///< lower height row
    std::size_t node = 0;     ///< lower node
    double row_share = 0.0;   ///< weight of the upper row, 0..1
    double node_share = 0.0;  ///< weight of the upper node, 0..1
};

/// Slant columns of every species along the refracted ray from a point to the sun. Depends on the shapes of
/// the profiles only, not on amounts or wavelength. Axes: 64 heights h = 100 km (i/63)^2; 224 nodes v with
/// chi = (chi_max(h) + 0.30 deg) (1 - v^2), which crowd at the edge of the Earth's shadow. Interpolated at
/// constant v, logarithmically in the columns. Accuracy against traced rays below 20 km: air and ozone mean
/// 0.07 %, worst 0.3 %; aerosol mean 0.3 %, worst 0.5 %; in the last 2 deg before the shadow edge worst 0.5
/// % and 2.3 % (tests/sky/columns.cpp).
class ColumnTable {
  public:
    static constexpr std::size_t kRows = 64;
    static constexpr std::size_t kNodes = 224;
    /// Scale heights at which the aerosol column is tabulated; between them ln N is linear in 1 / scale
    /// height.
    static constexpr std::array<double, 5> kScaleHeights_m{800.0, 1100.0, 1500.0, 2000.0, 2500.0};

    struct Node {
        float refraction_rad = 0.0F;  ///< true minus apparent zenith angle
        float spread = 0.0F;          ///< d apparent / d true zenith angle: the bent beam is thinned by it
        float ln_rayleigh = 0.0F;
        float ln_ozone = 0.0F;
        float ln_dust = 0.0F;
        float ln_sulphate = 0.0F;
        std::array<float, kScaleHeights_m.size()> ln_aerosol{};
    };

    /// Traces all nodes; some 5 s on two cores.
    static ColumnTable trace();

    static double row_height_m(std::size_t row);
    /// True zenith angle of the last ray that clears the ground, for the centre of the disc.
    double shadow_edge_rad(double height_m) const;
    double node_zenith_rad(std::size_t row, std::size_t node) const;

    /// Place of a point; nullopt where not even the sun's upper limb shines. Heights are clamped to 0..100
    /// km.
    std::optional<ColumnPlace> place(double height_m, double sun_zenith_rad) const;
    /// Apparent zenith angle of the sun's centre at a place; in shadow that of the grazing ray.
    double apparent_zenith_rad(double height_m, double sun_zenith_rad) const;

    const Node& node(std::size_t row, std::size_t index) const { return nodes_[row * kNodes + index]; }
    /// ln of the columns of all species at a node of one row, `node_share` towards the next node.
    PerSpecies ln_columns(std::size_t row, std::size_t index, double node_share,
                          double aerosol_scale_height_m) const;

    /// Raw content, for storing and loading.
    std::vector<Node> nodes_;
    std::array<double, kRows> edge_rad_{};
};

}  // namespace gloam::sky
