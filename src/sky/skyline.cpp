#include "sky/skyline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;
/// Coefficient of terrestrial refraction over land, surveying practice.
constexpr double kRefraction = 0.13;

Result<void> check(const SkylinePoint& point) {
    const double elevation_deg = point.elevation.degrees();
    if (!(elevation_deg >= -10.0 && elevation_deg <= 80.0)) {
        return fail(ErrorKind::kBadInput, fmt::format("{} deg is no elevation of a skyline", elevation_deg),
                    fmt::format("bearing {:.1f} deg", point.bearing.degrees()), "give -10 to 80 deg");
    }
    if (!(point.distance_m >= 10.0 && point.distance_m <= 300.0e3)) {
        return fail(ErrorKind::kBadInput, fmt::format("{} m is no distance of a skyline", point.distance_m),
                    fmt::format("bearing {:.1f} deg", point.bearing.degrees()), "give 10 m to 300 km");
    }
    return {};
}

/// Height above the sea of a point of the skyline, the Earth's curve and the bending of the view included.
double height_of(const SkylinePoint& point, double viewer_height_m) {
    const double drop_m =
        point.distance_m * point.distance_m * (1.0 - kRefraction) / (2.0 * air::kEarthRadius_m);
    return viewer_height_m + point.distance_m * std::tan(point.elevation.radians()) + drop_m;
}

/// Light of all the sky on a level plane, lx: rows count from half-way to half-way, the highest to the
/// zenith.
Xyz level_light(const Panorama& panorama) {
    const std::vector<Angle>& rows = panorama.grid.elevations;
    const std::size_t columns = panorama.grid.azimuths.size();
    Xyz sum;
    double below = 0.0;  // sin2 of the row's lower edge
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const bool top = r + 1 == rows.size();
        const double above = top ? 1.0 : std::pow(std::sin(0.5 * (rows[r] + rows[r + 1]).radians()), 2);
        Xyz row;
        for (std::size_t a = 0; a < columns; ++a) {
            row = row + panorama.cell(r, a).mean();
        }
        sum = sum + row * (kPi * (above - below) / static_cast<double>(columns));
        below = above;
    }
    return sum;
}

/// Share of the light of level air that comes through `distance_m` of it, for the eye.
double seen_through(const Air& air, double height_m, double distance_m) {
    const PerSpecies density = densities_per_m(height_m, air.atmosphere.aerosol_scale_height_m);
    Spectrum through;
    for (std::size_t b = 0; b < kBands; ++b) {
        double per_m = 0.0;
        for (std::size_t s = 0; s < kSpecies; ++s) {
            per_m += density[s] * air.optics.depth[s][b];
        }
        through[b] = air.bands->sun_w_m2_nm[b] * std::exp(-per_m * distance_m);
    }
    return air.bands->xyz(through).y / air.bands->xyz(air.bands->sun_w_m2_nm).y;
}

}  // namespace

Result<Skyline> Skyline::of(std::vector<SkylinePoint> points) {
    if (points.empty()) {
        return fail(ErrorKind::kBadInput, "a skyline without a point", {}, "give one point at least");
    }
    for (const SkylinePoint& point : points) {
        if (const auto checked = check(point); !checked) {
            return tl::unexpected(checked.error());
        }
    }
    std::ranges::sort(points, {}, &SkylinePoint::bearing);
    const auto twice = std::ranges::adjacent_find(points, {}, &SkylinePoint::bearing);
    if (twice != points.end()) {
        return fail(ErrorKind::kBadInput, "a skyline with two points at one bearing",
                    fmt::format("bearing {:.1f} deg", twice->bearing.degrees()), "leave one of them out");
    }
    return Skyline(std::move(points));
}

SkylinePoint Skyline::at(Azimuth bearing) const {
    const auto next = std::ranges::upper_bound(points_, bearing, {}, &SkylinePoint::bearing);
    const SkylinePoint& after = next == points_.end() ? points_.front() : *next;
    const SkylinePoint& before = next == points_.begin() ? points_.back() : *std::prev(next);
    const double gap_deg = Azimuth::degrees(after.bearing.degrees() - before.bearing.degrees()).degrees();
    const double into_deg = Azimuth::degrees(bearing.degrees() - before.bearing.degrees()).degrees();
    const double share = gap_deg > 0.0 ? into_deg / gap_deg : 0.0;  // a single point is its own neighbour
    return {bearing, before.elevation + (after.elevation - before.elevation) * share,
            before.distance_m + (after.distance_m - before.distance_m) * share};
}

std::vector<PathPoint> land_edge(const Skyline& skyline, double viewer_height_m, Azimuth sun) {
    std::vector<PathPoint> edge;
    for (int turn_deg = -89; turn_deg <= 89; ++turn_deg) {
        const SkylinePoint point = skyline.at(Azimuth::degrees(sun.degrees() + turn_deg));
        const double turn_rad = Angle::degrees(turn_deg).radians();
        edge.push_back({point.distance_m * std::cos(turn_rad), point.distance_m * std::sin(turn_rad),
                        height_of(point, viewer_height_m)});
    }
    return edge;
}

void put_land(const Skyline& skyline, Azimuth sun, const Air& air, double viewer_height_m,
              Panorama& panorama) {
    const Xyz land = level_light(panorama) * (air.atmosphere.ground_albedo / kPi);
    const std::size_t columns = panorama.grid.azimuths.size();
    for (std::size_t i = 0; i < panorama.cells.size(); ++i) {
        const Angle azimuth = panorama.grid.azimuths[i % columns];
        const SkylinePoint edge = skyline.at(Azimuth::degrees(sun.degrees() + azimuth.degrees()));
        if (panorama.grid.elevations[i / columns] >= edge.elevation) {
            continue;
        }
        const double through = seen_through(air, viewer_height_m, edge.distance_m);
        const Xyz light = land * through + panorama.cells[i].mean() * (1.0 - through);
        panorama.cells[i] = {};
        panorama.cells[i].add({1.0, light, Patch::kLand});
    }
}

}  // namespace gloam::sky
