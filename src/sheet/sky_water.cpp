#include "sheet/sky_water.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/parallel.hpp"

namespace gloam::sheet {
namespace {

constexpr double kPi = std::numbers::pi;

/// Slopes of waves in a wind of 1 m/s: mean square .003 + .00512 both ways together (Cox and Munk 1954, J.
/// Opt. Soc. Am. 44, 838, from memory), half of it along the view.
constexpr double kSlope = 0.064;
constexpr double kIndex = 1.34;
/// Light that comes back from below the surface, of what falls on it: clear water, from memory.
constexpr double kBelow = 0.02;

/// Light by direction: rows crowd at the level.
constexpr std::size_t kRows = 96;
constexpr std::size_t kColumns = 720;
using Lights = std::vector<sky::Xyz>;

/// Off the level, up or down.
double angle_of(double row) {
    const double root = (row + 0.5) / kRows;
    return kPi / 2.0 * root * root;
}

double azimuth_of(std::size_t column) {
    return std::remainder(2.0 * kPi * static_cast<double>(column) / kColumns, 2.0 * kPi);
}

/// A place between rows or columns.
struct Between {
    std::size_t first;
    std::size_t next;
    double share;
};

Between rows_at(double angle_rad) {
    const double root = std::sqrt(std::clamp(angle_rad / (kPi / 2.0), 0.0, 1.0));
    const double row = std::clamp(root * kRows - 0.5, 0.0, kRows - 1.001);
    const auto first = static_cast<std::size_t>(row);
    return {first, first + 1, row - std::floor(row)};
}

Between columns_at(double azimuth_rad) {
    const double turns = azimuth_rad / (2.0 * kPi);
    const double column = (turns - std::floor(turns)) * kColumns;
    const auto first = static_cast<std::size_t>(column) % kColumns;
    return {first, (first + 1) % kColumns, column - std::floor(column)};
}

Lights sky_above(const SkyDome& dome) {
    Lights sky(kRows * kColumns);
    parallel_for(kRows, [&](std::size_t row) {
        for (std::size_t column = 0; column < kColumns; ++column) {
            sky[row * kColumns + column] =
                dome.light_beside_sun({azimuth_of(column), angle_of(static_cast<double>(row))});
        }
    });
    return sky;
}

/// Slopes across the view mix neighbouring azimuths: the mean over 4 deg either way, twice.
void mix_azimuths(Lights& sky) {
    constexpr std::size_t kEitherWay = 8;
    constexpr std::size_t kMixed = 2 * kEitherWay + 1;
    for (std::size_t row = 0; row < kRows; ++row) {
        for (int pass = 0; pass < 2; ++pass) {
            const Lights before(sky.begin() + static_cast<std::ptrdiff_t>(row * kColumns),
                                sky.begin() + static_cast<std::ptrdiff_t>((row + 1) * kColumns));
            for (std::size_t column = 0; column < kColumns; ++column) {
                sky::Xyz sum;
                for (std::size_t i = 0; i < kMixed; ++i) {
                    sum = sum + before[(column + kColumns + i - kEitherWay) % kColumns];
                }
                sky[row * kColumns + column] = sum * (1.0 / kMixed);
            }
        }
    }
}

/// What falls on the level surface, lx as Y.
sky::Xyz level_light(const Lights& sky) {
    sky::Xyz sum;
    for (std::size_t row = 0; row < kRows; ++row) {
        const double low = std::sin(angle_of(static_cast<double>(row) - 0.5));
        const double high = std::sin(angle_of(static_cast<double>(row) + 0.5));
        const double ring = kPi * (high * high - low * low);
        for (std::size_t column = 0; column < kColumns; ++column) {
            sum = sum + sky[row * kColumns + column] * (ring / kColumns);
        }
    }
    return sum;
}

/// Unpolarised reflectance at the sine of the grazing angle. Source: Fresnel's formulas.
double reflectance(double sine) {
    const double refracted = std::sqrt(1.0 - (1.0 - sine * sine) / (kIndex * kIndex));
    const double across = (sine - kIndex * refracted) / (sine + kIndex * refracted);
    const double along = (kIndex * sine - refracted) / (kIndex * sine + refracted);
    return 0.5 * (across * across + along * along);
}

/// Part of the surface that the eye sees at a depression: facets of one slope along the view.
struct Facets {
    double mirrored_rad;  ///< elevation of the sky that they show
    double seen;          ///< area, as seen, of a level surface's
    double reflected;     ///< share of light
};

/// Facets that lean away from the eye are not seen; at grazing depressions most that are lean towards it.
std::vector<Facets> facets_at(double depression_rad) {
    constexpr int kSlopes = 121;
    constexpr double kMost_widths = 3.0;
    constexpr double kStep_widths = 2.0 * kMost_widths / kSlopes;
    std::vector<Facets> facets;
    for (int i = 0; i < kSlopes; ++i) {
        const double widths = kStep_widths * (i + 0.5) - kMost_widths;
        const double grazing_rad = depression_rad + kSlope * widths;
        if (grazing_rad > 0.0) {
            const double likely = kStep_widths * std::exp(-0.5 * widths * widths) / std::sqrt(2.0 * kPi);
            facets.push_back({depression_rad + 2.0 * kSlope * widths, likely * std::sin(grazing_rad),
                              reflectance(std::sin(grazing_rad))});
        }
    }
    return facets;
}

double seen_area(const std::vector<Facets>& facets) {
    double sum = 0.0;
    for (const Facets& some : facets) {
        sum += some.seen;
    }
    return sum;
}

/// Light of facets that happen to mirror the sun: E F p / (4 cos^4 b) over the surface that the eye sees, as
/// Cox and Munk.
double glitter(const SkyDirection& direction, double sun_elevation_rad) {
    // Towards the eye, and towards the sun: x away from the eye along the view, y right, z up.
    const double x =
        std::cos(sun_elevation_rad) * std::cos(direction.azimuth_rad) - std::cos(direction.elevation_rad);
    const double y = std::cos(sun_elevation_rad) * std::sin(direction.azimuth_rad);
    const double z = std::sin(sun_elevation_rad) - std::sin(direction.elevation_rad);
    const double length = std::sqrt(x * x + y * y + z * z);
    const double slope2 = (x * x + y * y) / (z * z);
    const double likely = std::exp(-0.5 * slope2 / (kSlope * kSlope)) / (2.0 * kPi * kSlope * kSlope);
    return reflectance(0.5 * length) * likely /
           (4.0 * std::pow(z / length, 4.0) * seen_area(facets_at(-direction.elevation_rad)));
}

}  // namespace

Water::Water(const SkyDome& dome)
    : sun_elevation_rad_(dome.seen().sun_seen.angle.radians()),
      sun_beam_(dome.sun_beam()),
      surface_(kRows * kColumns) {
    Lights sky = sky_above(dome);
    mix_azimuths(sky);
    const sky::Xyz below =
        (level_light(sky) + sun_beam_ * std::max(0.0, std::sin(sun_elevation_rad_))) * (kBelow / kPi);
    parallel_for(kRows, [&](std::size_t row) {
        const auto facets = facets_at(angle_of(static_cast<double>(row)));
        const double seen = seen_area(facets);
        for (const Facets& some : facets) {
            const Between at = rows_at(std::max(0.0, some.mirrored_rad));
            const double share = some.seen / seen;
            for (std::size_t column = 0; column < kColumns; ++column) {
                const sky::Xyz mirrored = sky[at.first * kColumns + column] * (1.0 - at.share) +
                                          sky[at.next * kColumns + column] * at.share;
                sky::Xyz& here = surface_[row * kColumns + column];
                here = here + mirrored * (share * some.reflected) + below * (share * (1.0 - some.reflected));
            }
        }
    });
}

sky::Xyz Water::light_at(const SkyDirection& direction) const {
    const Between row = rows_at(-direction.elevation_rad);
    const Between column = columns_at(direction.azimuth_rad);
    const auto along_row = [&](std::size_t r) {
        return surface_[r * kColumns + column.first] * (1.0 - column.share) +
               surface_[r * kColumns + column.next] * column.share;
    };
    const sky::Xyz light = along_row(row.first) * (1.0 - row.share) + along_row(row.next) * row.share;
    return sun_beam_.y > 0.0 ? light + sun_beam_ * glitter(direction, sun_elevation_rad_) : light;
}

}  // namespace gloam::sheet
