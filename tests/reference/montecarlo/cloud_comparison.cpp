#include "reference/montecarlo/cloud_comparison.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::montecarlo {
namespace {

constexpr double kPi = std::numbers::pi;
/// The sun counts as level within this of the element's horizontal.
constexpr double kLevel_deg = 0.25;

BrokenLayer water(double base_km, double thickness_km, double depth, double edge_km, CloudPattern pattern) {
    return {base_km, base_km + thickness_km, depth, &droplets(), std::move(pattern), edge_km};
}

BrokenLayer high(double base_km, double thickness_km, double depth, double edge_km, CloudPattern pattern) {
    return {base_km, base_km + thickness_km, depth, &ice(), std::move(pattern), edge_km};
}

constexpr double kNoEdge_km = 1e6;

/// The same field for src/sky, by the cell lengths and lit shares of its class.
sky::CloudLayer layer_of(const CloudCase& one) {
    sky::CloudLayer layer = test::layer(one.kind, 1e3 * one.layer.base_km, 1e3 * one.layer.top_km,
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

/// How the elements of a layer are seen: 1 towards the sun, and the sine of the view elevation there.
sky::CloudView cloud_view(const View& view, double base_km) {
    constexpr double kRadius_km = 6371.0;
    const double sine = std::sin(view.elevation_deg * kPi / 180.0);
    const double shrink = kRadius_km / (kRadius_km + base_km);
    return {
        dot(direction_of(view.elevation_deg, view.azimuth_deg), direction_of(view.sun_elevation_deg, 0.0)),
        std::sqrt(1.0 - shrink * shrink * (1.0 - sine * sine))};
}

bool counts_at_all(const CloudPair& pair) {
    return pair.luminance.value >= 0.3 && pair.luminance.error <= 0.25 * pair.luminance.value &&
           pair.fast_cd_m2 > 0.0;
}

/// Pairs with their fast light multiplied by what `factor` says.
template <class Factor>
std::vector<CloudPair> scaled(std::vector<CloudPair> pairs, const Factor& factor) {
    for (CloudPair& pair : pairs) {
        pair.fast_cd_m2 *= factor(pair);
    }
    return pairs;
}

}  // namespace

std::vector<CloudCase> fitted_cases() {
    using enum sky::CloudClass;
    return {
        {"middle deck, 5.5 km, depth 10, edge 80 km",
         water(5.5, 0.8, 10.0, 80.0, {}),
         0.05,
         kMiddle,
         {2.0, 0.5, -1.0, -1.8}},
        {"middle .45 of 0.5 km, 3.5 km, depth 6, edge 40 km",
         water(3.5, 0.8, 6.0, 40.0, {.cover = 0.45, .element_km = 0.5, .scales_km = {0.5}}),
         0.10,
         kMiddle,
         {4.0, 1.5, -0.5, -1.2}},
        {"middle .8 of 0.3 to 8 km, 4.8 km, depth 15, edge 80 km",
         water(4.8, 0.5, 15.0, 80.0, {.cover = 0.8, .scales_km = {0.3, 2.0, 8.0}}),
         0.10,
         kMiddle,
         {2.0, 0.5, -0.8, -1.6}},
        {"middle .4 stepped, 6.5 km, depth 4, edge 120 km",
         water(6.5, 0.4, 4.0, 120.0, {.cover = 0.4, .scales_km = {0.3, 1.0, 4.0}, .step_km = 0.2}),
         0.15,
         kMiddle,
         {2.0, 0.5, -1.0, -2.0}},
        {"low .6 of 0.5 to 2 km, 1.5 km, depth 15, edge 30 km",
         water(1.5, 0.8, 15.0, 30.0, {.cover = 0.6, .element_km = 0.5, .scales_km = {0.5, 2.0}}),
         0.10,
         kLow,
         {4.0, 1.5, -0.3}},
        {"middle .3 of 0.4 to 6 km, 4 km, no edge",
         water(4.0, 0.6, 8.0, kNoEdge_km, {.cover = 0.3, .element_km = 0.4, .scales_km = {0.4, 2.0, 6.0}}),
         0.10,
         kMiddle,
         {4.0, 1.5, 0.5}},
        {"high canopy, 10 km, depth 1, edge 200 km",
         high(10.0, 1.5, 1.0, 200.0, {.element_km = 0.6}),
         0.10,
         kHigh,
         {2.0, 0.5, -2.0, -3.0}},
        {"high .7 of 1 to 10 km, 8 km, depth 3, edge 150 km",
         high(8.0, 1.2, 3.0, 150.0, {.cover = 0.7, .element_km = 0.6, .scales_km = {1.0, 4.0, 10.0}}),
         0.10,
         kHigh,
         {4.0, 1.5, -1.2, -2.2}},
        {"high .3 of 3 to 20 km, 9.5 km, no edge",
         high(9.5, 1.0, 2.0, kNoEdge_km, {.cover = 0.3, .element_km = 0.6, .scales_km = {3.0, 20.0}}),
         0.10,
         kHigh,
         {4.0, 1.5, -1.0}}};
}

std::vector<CloudCase> checked_cases() {
    using enum sky::CloudClass;
    const std::vector<double> scales{0.3, 1.2, 5.0, 15.0};
    const std::vector<double> bands{2.0, 8.0, 30.0};
    const std::vector<double> middle_suns{3.0, 1.0, -1.0, -1.5};
    const std::vector<double> high_suns{3.0, 1.0, -1.5, -2.5};
    return {
        {"middle deck, 4 km, edge 60 km", water(4.0, 0.6, 8.0, 60.0, {}), 0.10, kMiddle, middle_suns},
        {"middle .6 of 0.3 km, 4 km, edge 60 km", water(4.0, 0.6, 8.0, 60.0, {.cover = 0.6}), 0.10, kMiddle,
         middle_suns},
        {"middle .3 of 0.3 to 15 km, 5 km, edge 100 km",
         water(5.0, 0.6, 8.0, 100.0, {.cover = 0.3, .scales_km = scales}), 0.10, kMiddle, middle_suns},
        {"middle .7 stepped, 6 km, depth 12, edge 100 km",
         water(6.0, 0.6, 12.0, 100.0, {.cover = 0.7, .scales_km = scales, .step_km = 0.3}), 0.05, kMiddle,
         middle_suns},
        {"middle .5 of 0.3 to 15 km, 4.5 km, no edge",
         water(4.5, 0.6, 8.0, kNoEdge_km, {.cover = 0.5, .scales_km = scales}), 0.10, kMiddle, middle_suns},
        {"high canopy, 9 km, edge 250 km", high(9.0, 1.0, 2.0, 250.0, {.element_km = 0.6}), 0.10, kHigh,
         high_suns},
        {"high .5 of 2 to 30 km, 9 km, edge 250 km",
         high(9.0, 1.0, 2.0, 250.0, {.cover = 0.5, .element_km = 0.6, .scales_km = bands}), 0.10, kHigh,
         high_suns},
        {"high .5 of 2 to 30 km, 8 km, depth 1, no edge",
         high(8.0, 1.0, 1.0, kNoEdge_km, {.cover = 0.5, .element_km = 0.6, .scales_km = bands}), 0.10, kHigh,
         high_suns}};
}

std::vector<CloudCase> front_cases() {
    using enum sky::CloudClass;
    const std::vector<double> suns{1.0, 0.3, -0.3, -0.7};
    return {
        {"middle .6 of 0.3 km, 4 km, edge 10 km", water(4.0, 0.6, 8.0, 10.0, {.cover = 0.6}), 0.10, kMiddle,
         suns},
        {"middle .6 of 0.3 to 15 km, 4 km, edge 10 km",
         water(4.0, 0.6, 8.0, 10.0, {.cover = 0.6, .scales_km = {0.3, 1.2, 5.0, 15.0}}), 0.10, kMiddle, suns},
        {"high .6 of 2 to 30 km, 9 km, edge 30 km",
         high(9.0, 1.0, 2.0, 30.0, {.cover = 0.6, .element_km = 0.6, .scales_km = {2.0, 8.0, 30.0}}), 0.10,
         kHigh, suns}};
}

std::vector<CloudPair> compared(const CloudCase& one, const Looks& looks, int paths_per_batch,
                                unsigned threads) {
    const sky::Bands& bands = test::tables().bands;
    const Medium medium = clear_air({.aerosol_depth_550 = one.aerosol_depth_550}, bands);
    const SunBeam beam(medium);
    const sky::Air air = test::air_with_aerosol(one.aerosol_depth_550);
    sky::PanoramaGrid grid;
    for (const double elevation_deg : looks.elevations_deg) {
        grid.elevations.push_back(Angle::degrees(elevation_deg));
    }
    for (const double azimuth_deg : looks.azimuths_deg) {
        grid.azimuths.push_back(Angle::degrees(azimuth_deg));
    }
    const sky::SkyPainter painter(air, 0.0, grid, 90);
    const sky::CloudLayer layer = layer_of(one);
    const sky::CloudField field({layer});
    std::vector<CloudPair> pairs;
    for (const double sun_deg : one.suns_deg) {
        const sky::Panorama fast = painter.paint(field, test::sun_at(sun_deg));
        for (std::size_t i = 0; i < looks.elevations_deg.size(); ++i) {
            for (std::size_t j = 0; j < looks.azimuths_deg.size(); ++j) {
                const View view{0.0, sun_deg, looks.elevations_deg[i], looks.azimuths_deg[j]};
                const Effort effort{
                    .paths_per_batch = paths_per_batch, .seed = 1 + pairs.size(), .threads = threads};
                const Figure light =
                    beam_lit_cloud(beam, one.layer, view, effort).figure([&](const sky::Spectrum& s) {
                        return bands.xyz(s).y;
                    });
                const sky::PanoramaCell& cell = fast.cell(i, j);
                const double closed = cell.count < 2 ? 0.0 : cell.patches[0].share + cell.patches[1].share;
                pairs.push_back({one.name, sun_deg, view.elevation_deg, view.azimuth_deg,
                                 way_of_light(beam, one, sun_deg, view.elevation_deg, view.azimuth_deg),
                                 light, lit_by_beam(cell), layer.optics, cloud_view(view, one.layer.base_km),
                                 1.0 - closed});
            }
        }
    }
    return pairs;
}

Spread spread(const std::vector<CloudPair>& pairs, const std::function<bool(const CloudPair&)>& counts) {
    Spread found;
    for (const CloudPair& pair : pairs) {
        if (!counts(pair) || !counts_at_all(pair)) {
            continue;
        }
        const double ln_ratio = std::log(pair.fast_cd_m2 / pair.luminance.value);
        ++found.count;
        found.bias += ln_ratio;
        found.rms += ln_ratio * ln_ratio;
    }
    found.bias /= std::max(found.count, 1);
    found.rms = std::sqrt(found.rms / std::max(found.count, 1));
    return found;
}

Spread spread_with(const std::vector<CloudPair>& pairs, const sky::LightFromBelow& constants) {
    const auto other = scaled(pairs, [&](const CloudPair& pair) {
        return sky::lit_from_below(pair.optics, pair.view, constants) /
               sky::lit_from_below(pair.optics, pair.view);
    });
    return spread(other, [](const CloudPair& pair) { return pair.lit == Lit::kFromBelow; });
}

Spread spread_with(const std::vector<CloudPair>& pairs, const sky::LightFromAbove& constants) {
    const auto other = scaled(pairs, [&](const CloudPair& pair) {
        return sky::lit_from_above(pair.optics, pair.view, pair.open, constants) /
               sky::lit_from_above(pair.optics, pair.view, pair.open);
    });
    return spread(other, [](const CloudPair& pair) { return pair.lit == Lit::kFromAbove; });
}

std::vector<double> least(std::vector<double> start,
                          const std::function<double(std::span<const double>)>& cost) {
    double best = cost(start);
    for (double step = 0.1; step > 1e-3;) {
        bool moved = false;
        for (double& value : start) {
            for (const double factor : {1.0 + step, 1.0 - step}) {
                const double before = value;
                value *= factor;
                const double here = cost(start);
                moved = moved || here < best;
                value = here < best ? value : before;
                best = std::min(best, here);
            }
        }
        step *= moved ? 1.0 : 0.5;
    }
    return start;
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
