#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "sky/scene.hpp"

namespace gloam::test {

/// Draws skies of all kinds: clear, broken, closed and half-way; with edges sharp and soft, straight and
/// aslant; in clean air and haze. The same seed gives the same skies.
class RandomSkies {
  public:
    explicit RandomSkies(unsigned seed) : engine_(seed) {}

    /// Even in [low, high).
    double even(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_() >> 11U) * 0x1p-53;
    }

    sky::Atmosphere atmosphere() {
        sky::Atmosphere atmosphere;
        atmosphere.aerosol_depth_550 = std::exp(even(std::log(0.03), std::log(0.4)));
        atmosphere.aerosol_scale_height_m = even(800.0, 2500.0);
        return atmosphere;
    }

    double viewer_height_m() { return even(0.0, 1.0) < 0.5 ? 0.0 : even(0.0, 2000.0); }

    std::vector<sky::CloudLayer> three_layers() {
        return {layer(sky::CloudClass::kLow, even(300.0, 1800.0), even(200.0, 1000.0)),
                layer(sky::CloudClass::kMiddle, even(2500.0, 6000.0), even(300.0, 2000.0)),
                layer(sky::CloudClass::kHigh, even(6500.0, 10500.0), even(300.0, 2000.0))};
    }

  private:
    using Grid = geo::LightPathGrid;

    double cover() { return even(0.0, 1.0) < 0.3 ? std::round(even(0.0, 1.0)) : even(0.0, 1.0); }

    sky::CloudLayer layer(sky::CloudClass kind, double base_m, double thickness_m) {
        sky::CloudLayer result{
            kind, sky::cloud_optics(kind, std::exp2(even(-1.0, 1.0))), base_m, base_m + thickness_m, {}};
        if (even(0.0, 1.0) < 0.2) {
            return result;  // none
        }
        const bool edged = even(0.0, 1.0) < 0.5;
        const double near = cover();
        const double far = edged ? cover() * std::round(even(0.0, 1.0)) : near;
        const double edge_m = even(-100.0e3, 600.0e3);
        const double ramp_m = even(5.0e3, 120.0e3);
        const double aslant = even(-1.0, 1.0);
        const double swing = even(0.0, 1.0) < 0.5 ? even(0.0, 0.3) : 0.0;
        const double length_m = even(80.0e3, 400.0e3);
        const double phase = even(0.0, 6.28);
        for (std::size_t line = 0; line < Grid::kLines; ++line) {
            const double aside_m = Grid::kFirstAside_m + Grid::kLineSpacing_m * static_cast<double>(line);
            for (std::size_t i = 0; i < Grid::kPoints; ++i) {
                const double along_m = Grid::kFirst_m + Grid::kStep_m * static_cast<double>(i);
                const double share =
                    std::clamp((along_m + aslant * aside_m - edge_m) / ramp_m + 0.5, 0.0, 1.0);
                const double wave = std::sin(6.28 * along_m / length_m + 3.0 * aside_m / length_m + phase);
                result.cover[line][i] = static_cast<float>(
                    std::clamp(near * (1.0 - share) + far * share + swing * wave, 0.0, 1.0));
            }
        }
        return result;
    }

    std::mt19937_64 engine_;
};

}  // namespace gloam::test
