#pragma once

namespace gloam::sky {

/// What lies round a stand, as the sky is lit by it.
enum class Ground { kWater, kLand, kSnow };

/// Share of light that a ground returns, all directions alike: .06, .15, .8. Source: common values of diffuse
/// light (Oke 1987, Boundary Layer Climates, table 1.1, from memory); snow is fresh.
constexpr double albedo_of(Ground ground) {
    switch (ground) {
        case Ground::kWater:
            return 0.06;
        case Ground::kSnow:
            return 0.8;
        case Ground::kLand:
            break;
    }
    return 0.15;
}

}  // namespace gloam::sky
