#include "air/ray.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "air/standard_atmosphere.hpp"

namespace gloam::air {
namespace {

struct RayState {
    double radius_m;
    double psi_rad;  ///< between the ray and the local vertical
    double phi_rad;  ///< central angle travelled
};

struct RayRate {
    double radius;
    double psi_rad_m;
    double phi_rad_m;
};

RayRate rate(const RayState& state) {
    const AirState air = standard_atmosphere(state.radius_m - kEarthRadius_m);
    const double index = 1.0 + kSeaLevelRefractivity * air.relative_density;
    const double bend = kSeaLevelRefractivity * air.relative_density_gradient_per_m / index;
    const double sine = std::sin(state.psi_rad);
    return {std::cos(state.psi_rad), -sine * (1.0 / state.radius_m + bend), sine / state.radius_m};
}

RayState advance(const RayState& state, const RayRate& slope, double path_m) {
    return {state.radius_m + slope.radius * path_m, state.psi_rad + slope.psi_rad_m * path_m,
            state.phi_rad + slope.phi_rad_m * path_m};
}

struct RayStep {
    RayState middle;
    RayState end;
};

/// One step by the classical fourth-order Runge-Kutta method.
RayStep step(const RayState& state, double path_m) {
    const RayRate k1 = rate(state);
    const RayRate k2 = rate(advance(state, k1, path_m / 2.0));
    const RayState middle = advance(state, k2, path_m / 2.0);
    const RayRate k3 = rate(middle);
    const RayRate k4 = rate(advance(state, k3, path_m));
    const RayRate mean{(k1.radius + 2.0 * (k2.radius + k3.radius) + k4.radius) / 6.0,
                       (k1.psi_rad_m + 2.0 * (k2.psi_rad_m + k3.psi_rad_m) + k4.psi_rad_m) / 6.0,
                       (k1.phi_rad_m + 2.0 * (k2.phi_rad_m + k3.phi_rad_m) + k4.phi_rad_m) / 6.0};
    return {middle, advance(state, mean, path_m)};
}

/// Path step: about 0.25 km of height below 20 km growing to 1.5 km, never more than 2 km of path near the
/// ground, 6 km elsewhere.
double step_length_m(const RayState& state) {
    const double height_m = state.radius_m - kEarthRadius_m;
    const double rise_m = height_m < 20.0e3 ? 250.0 : std::min(250.0 + (height_m - 20.0e3) * 0.025, 1500.0);
    const double longest_m = height_m < 3.0e3 ? 2.0e3 : 6.0e3;
    const double slope = std::abs(std::cos(state.psi_rad));
    return std::min(longest_m, rise_m / std::max(slope, 1e-6));
}

/// Shortens the last step so that it ends at the top of the air.
double clip_to_top_m(const RayState& state, double path_m) {
    const double slope = std::cos(state.psi_rad);
    const double room_m = kEarthRadius_m + kTopOfAir_m - state.radius_m;
    return slope > 0.0 ? std::min(path_m, room_m / slope + 1e-3) : path_m;
}

void add_columns(std::span<const Profile> profiles, std::span<double> columns,
                 std::array<double, 3> heights_m, double path_m) {
    for (std::size_t i = 0; i < profiles.size(); ++i) {
        columns[i] +=
            path_m / 6.0 *
            (profiles[i](heights_m[0]) + 4.0 * profiles[i](heights_m[1]) + profiles[i](heights_m[2]));
    }
}

}  // namespace

double refractive_index(double height_m) {
    return 1.0 + kSeaLevelRefractivity * standard_atmosphere(height_m).relative_density;
}

std::optional<Angle> trace_to_space(double height_m, Angle zenith, std::span<const Profile> profiles,
                                    std::span<double> columns) {
    std::fill(columns.begin(), columns.end(), 0.0);
    RayState state{kEarthRadius_m + height_m, zenith.radians(), 0.0};
    while (state.radius_m < kEarthRadius_m + kTopOfAir_m) {
        const double path_m = clip_to_top_m(state, step_length_m(state));
        const auto [middle, next] = step(state, path_m);
        if (next.radius_m < kEarthRadius_m) {
            return std::nullopt;
        }
        add_columns(profiles, columns,
                    {state.radius_m - kEarthRadius_m, middle.radius_m - kEarthRadius_m,
                     next.radius_m - kEarthRadius_m},
                    path_m);
        state = next;
    }
    return Angle::radians(state.psi_rad + state.phi_rad);
}

std::optional<TrueAltitude> true_altitude(double height_m, ApparentAltitude apparent) {
    const Angle right_angle = Angle::degrees(90.0);
    const auto zenith = trace_to_space(height_m, right_angle - apparent.angle, {}, {});
    return zenith ? std::optional(TrueAltitude{right_angle - *zenith}) : std::nullopt;
}

Angle grazing_zenith(double height_m) {
    // Bouguer: r n sin z is constant along a ray; at the ground the grazing ray is horizontal.
    const double sine =
        kEarthRadius_m * refractive_index(0.0) / ((kEarthRadius_m + height_m) * refractive_index(height_m));
    return Angle::radians(std::numbers::pi - std::asin(std::min(sine, 1.0)));
}

}  // namespace gloam::air
