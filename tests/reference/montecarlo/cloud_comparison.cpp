#include "reference/montecarlo/cloud_comparison.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::montecarlo {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr std::array<double, 4> kElevations_deg{6.0, 15.0, 30.0, 60.0};
constexpr std::array<double, 4> kAzimuths_deg{0.0, 45.0, 90.0, 180.0};
/// The sun counts as level within this of the element's horizontal.
constexpr double kLevel_deg = 0.25;

BrokenLayer water(double base_km, double thickness_km, double depth, double edge_km, CloudPattern pattern) {
    return {base_km, base_km + thickness_km, depth, &droplets(), std::move(pattern), edge_km};
}

BrokenLayer high(double base_km, double depth, double edge_km, CloudPattern pattern) {
    return {base_km, base_km + 1.0, depth, &ice(), std::move(pattern), edge_km};
}

/// The same field for src/sky, by the cell lengths and lit shares of its class.
sky::CloudLayer layer_of(const CloudCase& one) {
    const sky::CloudClass kind = one.ice ? sky::CloudClass::kHigh : sky::CloudClass::kMiddle;
    sky::CloudLayer layer = test::layer(kind, 1e3 * one.layer.base_km, 1e3 * one.layer.top_km,
                                        one.layer.pattern.cover, one.layer.edge_km);
    layer.optics.optical_depth = one.layer.optical_depth;
    return layer;
}

/// Luminance over all sky that the lit patch adds to the unlit one; the fast sky never shares light among
/// less than 0.15 of the sky.
double lit_by_beam(const sky::PanoramaCell& cell) {
    if (cell.count < 2 || !cell.patches[0].lit) {
        return 0.0;
    }
    const double share = cell.patches[0].share;
    const double closed = share + cell.patches[1].share;
    return (cell.patches[0].light.y - cell.patches[1].light.y) * share * std::max(closed, 0.15) / closed;
}

Lit way_of_light(const SunBeam& beam, const CloudCase& one, double sun_deg, double elevation_deg,
                 double azimuth_deg) {
    // The element stands nearer to the sun or farther: it sees it higher or lower.
    const double out_km = one.layer.base_km / std::tan(elevation_deg * kPi / 180.0);
    const double zenith = (90.0 - sun_deg) * kPi / 180.0 -
                          out_km * std::cos(azimuth_deg * kPi / 180.0) / beam.medium().radius_km;
    const double dip_deg = beam.apparent_zenith_rad(one.layer.base_km, zenith) * 180.0 / kPi - 90.0;
    return dip_deg > kLevel_deg ? Lit::kFromBelow : dip_deg < -kLevel_deg ? Lit::kFromAbove : Lit::kLevel;
}

}  // namespace

std::vector<CloudCase> cloud_cases() {
    const std::vector<double> cells{0.3};
    const std::vector<double> scales{0.3, 1.2, 5.0, 15.0};
    const std::vector<double> bands{2.0, 8.0, 30.0};
    const std::vector<double> middle_suns{3.0, 1.0, -1.0, -1.5};
    const std::vector<double> high_suns{3.0, 1.0, -1.5, -2.5};
    return {
        {"middle deck, 4 km, edge 60 km", water(4.0, 0.6, 8.0, 60.0, {}), 0.10, false, middle_suns},
        {"middle .6 of 0.3 km, 4 km, edge 60 km",
         water(4.0, 0.6, 8.0, 60.0, {.cover = 0.6, .scales_km = cells}), 0.10, false, middle_suns},
        {"middle .3 of 0.3 to 15 km, 5 km, edge 100 km",
         water(5.0, 0.6, 8.0, 100.0, {.cover = 0.3, .scales_km = scales}), 0.10, false, middle_suns},
        {"middle .7 stepped, 6 km, depth 12, edge 100 km",
         water(6.0, 0.6, 12.0, 100.0, {.cover = 0.7, .scales_km = scales, .step_km = 0.3}), 0.05, false,
         middle_suns},
        {"middle .5 of 0.3 to 15 km, 4.5 km, no edge",
         water(4.5, 0.6, 8.0, 1e6, {.cover = 0.5, .scales_km = scales}), 0.10, false, middle_suns},
        {"high canopy, 9 km, edge 250 km", high(9.0, 2.0, 250.0, {.element_km = 0.6}), 0.10, true, high_suns},
        {"high .5 of 2 to 30 km, 9 km, edge 250 km",
         high(9.0, 2.0, 250.0, {.cover = 0.5, .element_km = 0.6, .scales_km = bands}), 0.10, true, high_suns},
        {"high .5 of 2 to 30 km, 8 km, depth 1, no edge",
         high(8.0, 1.0, 1e6, {.cover = 0.5, .element_km = 0.6, .scales_km = bands}), 0.10, true, high_suns}};
}

std::vector<CloudPair> compared(const CloudCase& one, int paths_per_batch, unsigned threads) {
    const sky::Bands& bands = test::tables().bands;
    const Medium medium = clear_air({.aerosol_depth_550 = one.aerosol_depth_550}, bands);
    const SunBeam beam(medium);
    const sky::Air air = test::air_with_aerosol(one.aerosol_depth_550);
    sky::PanoramaGrid grid;
    for (const double elevation_deg : kElevations_deg) {
        grid.elevations.push_back(Angle::degrees(elevation_deg));
    }
    for (const double azimuth_deg : kAzimuths_deg) {
        grid.azimuths.push_back(Angle::degrees(azimuth_deg));
    }
    const sky::SkyPainter painter(air, 0.0, grid, 90);
    const sky::CloudField field({layer_of(one)});
    std::vector<CloudPair> pairs;
    for (const double sun_deg : one.suns_deg) {
        const sky::Panorama fast = painter.paint(field, test::sun_at(sun_deg));
        for (std::size_t i = 0; i < kElevations_deg.size(); ++i) {
            for (std::size_t j = 0; j < kAzimuths_deg.size(); ++j) {
                const View view{0.0, sun_deg, kElevations_deg[i], kAzimuths_deg[j]};
                const Effort effort{
                    .paths_per_batch = paths_per_batch, .seed = 1 + pairs.size(), .threads = threads};
                const Figure light =
                    beam_lit_cloud(beam, one.layer, view, effort).figure([&](const sky::Spectrum& s) {
                        return bands.xyz(s).y;
                    });
                pairs.push_back({one.name, sun_deg, view.elevation_deg, view.azimuth_deg,
                                 way_of_light(beam, one, sun_deg, view.elevation_deg, view.azimuth_deg),
                                 light, lit_by_beam(fast.cell(i, j))});
            }
        }
    }
    return pairs;
}

Spread spread(const std::vector<CloudPair>& pairs, const std::function<bool(const CloudPair&)>& counts) {
    Spread found;
    for (const CloudPair& pair : pairs) {
        const Figure& light = pair.luminance;
        if (!counts(pair) || light.value < 0.3 || light.error > 0.25 * light.value ||
            pair.fast_cd_m2 <= 0.0) {
            continue;
        }
        const double ln_ratio = std::log(pair.fast_cd_m2 / light.value);
        ++found.count;
        found.bias += ln_ratio;
        found.rms += ln_ratio * ln_ratio;
    }
    found.bias /= std::max(found.count, 1);
    found.rms = std::sqrt(found.rms / std::max(found.count, 1));
    return found;
}

std::vector<Overcast> overcast(sky::CloudClass kind, double base_km, double top_km,
                               const std::vector<double>& suns_deg, unsigned threads) {
    const sky::Bands& bands = test::tables().bands;
    const sky::CloudLayer layer = test::layer(kind, 1e3 * base_km, 1e3 * top_km, 1.0);
    const double returned = layer.optics.diffuse_albedo();
    const double level_passed =
        (2.0 / 3.0) / (4.0 / 3.0 + (1.0 - layer.optics.asymmetry) * layer.optics.optical_depth);
    const Medium air = clear_air({}, bands);
    const Medium above = over_higher_ground(air, top_km, returned);
    const SunBeam beam(above);
    const sky::SkyPainter painter(test::default_air(), 0.0, {{Angle::degrees(45.0)}, {Angle::degrees(90.0)}},
                                  90);
    std::vector<Overcast> all;
    for (const double sun_deg : suns_deg) {
        Overcast one;
        one.sun_deg = sun_deg;
        const auto lx = [&](const sky::Spectrum& s) { return bands.xyz(s).y; };
        one.on_deck_lx =
            irradiance(beam, {}, {0.0, sun_deg}, {.paths_per_batch = 1024, .threads = threads}).figure(lx);
        const double sun_lx = lx(level_sun(beam, sun_deg));
        one.under_deck_cd_m2 = (one.on_deck_lx.value * (1.0 - returned) + sun_lx * level_passed) / kPi /
                               (1.0 - air.ground_albedo * returned);
        one.fast_cd_m2 = painter.paint(sky::CloudField({layer}), test::sun_at(sun_deg)).cell(0, 0).mean().y;
        one.clear_lx = test::level_light(test::default_air(), sun_deg).y;
        all.push_back(one);
    }
    return all;
}

}  // namespace gloam::montecarlo
