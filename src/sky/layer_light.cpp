#include "sky/layer_light.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "sky/cloud_light.hpp"
#include "sky/elementary.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr float kPiFloat = 3.14159265F;
constexpr std::size_t kPadded = BySide{}.size();

GLOAM_INLINE float henyey_greenstein_float(float asymmetry, float cosine) {
    const float square = asymmetry * asymmetry;
    const float base = 1.0F + square - 2.0F * asymmetry * cosine;
    return (1.0F - square) / (base * std::sqrt(base));
}

constexpr float narrow(double value) {
    return static_cast<float>(value);
}

/// lit_from_below() in one row.
struct FromBelow {
    float even, forward, backward;

    FromBelow(float mu, float albedo) {
        constexpr const LightFromBelow& c = kLightFromBelow;
        const float peak = 1.0F / (4.0F * (mu + narrow(c.blur)));
        even = std::min(narrow(c.even) * albedo * albedo, narrow(c.most_even));
        forward = narrow(c.forward) * peak;
        backward = narrow(c.backward) * peak;
    }
    GLOAM_INLINE float lit(float cosine) const {
        constexpr const LightFromBelow& c = kLightFromBelow;
        return even + forward * henyey_greenstein_float(narrow(c.forward_asymmetry), cosine) +
               backward * henyey_greenstein_float(narrow(c.backward_asymmetry), cosine);
    }
};

RowPlace row_place(double height_m, std::size_t rows, std::size_t rows_kept) {
    const double place =
        std::min(std::sqrt(std::max(height_m, 0.0) / air::kTopOfAir_m) * static_cast<double>(rows - 1),
                 static_cast<double>(rows_kept - 1) - 1e-6);
    const auto low = static_cast<std::size_t>(place);
    return {low, static_cast<float>(place - static_cast<double>(low))};
}

/// Place on the axis of the sun's zenith angle, and the node below it.
struct SunPlace {
    std::size_t node;
    float share;
};
GLOAM_INLINE SunPlace sun_place(float place) {
    const auto node = static_cast<std::size_t>(place);
    return {node, place - static_cast<float>(node)};
}

/// Value of a table [row][node] of logarithms, linear both ways.
GLOAM_INLINE FloatXyz between(const std::vector<FloatXyz>& ln, std::size_t nodes, RowPlace row, SunPlace at) {
    const FloatXyz* low = &ln[row.low * nodes + at.node];
    const FloatXyz* high = low + nodes;
    FloatXyz value;
    for (std::size_t i = 0; i < value.size(); ++i) {
        const float below = low[0][i] + at.share * (low[1][i] - low[0][i]);
        const float above = high[0][i] + at.share * (high[1][i] - high[0][i]);
        value[i] = below + row.share * (above - below);
    }
    return value;
}

/// Diffuse light by side that falls on cloud at a height, through the air to the viewer: its logarithm is a
/// parabola in the cosine of the azimuth through three sides.
GLOAM_VECTOR_CLONES void flux(const std::vector<FloatXyz>& ln_flux, RowPlace height, const BySide& zenith_rad,
                              const BySide& azimuth_cosine, std::array<BySide, 3>& light) {
    const auto at = [&](std::size_t side) {
        const float place =
            std::clamp((zenith_rad[side] - static_cast<float>(AirPalette::kFirstDiffuse_rad)) /
                           static_cast<float>(AirPalette::kDiffuseStep_rad),
                       0.0F, static_cast<float>(AirPalette::kDiffuseNodes - 1) - 0.001F);
        return between(ln_flux, AirPalette::kDiffuseNodes, height, sun_place(place));
    };
    const FloatXyz towards = at(0);
    const FloatXyz across = at(6);
    const FloatXyz away = at(12);
    for (std::size_t i = 0; i < 3; ++i) {
        const float slope = 0.5F * (towards[i] - away[i]);
        const float bend = 0.5F * (towards[i] + away[i]) - across[i];
        for (std::size_t s = 0; s < kPadded; ++s) {
            const float t = azimuth_cosine[s];
            light[i][s] = exponential(across[i] + t * (slope + t * bend));
        }
    }
}

}  // namespace

BeamAtHeight::BeamAtHeight(const AirPalette& palette, double height_m, double base_m)
    : base_(row_place(base_m, ColumnTable::kRows, AirPalette::kBeamRows)) {
    const ColumnTable& columns = palette.air().beam.columns();
    const RowPlace here = row_place(height_m, ColumnTable::kRows, AirPalette::kBeamRows);
    const double low_rad = columns.node_zenith_rad(here.low, 0);
    reach_rad_ = static_cast<float>(low_rad + static_cast<double>(here.share) *
                                                  (columns.node_zenith_rad(here.low + 1, 0) - low_rad));
    const FloatXyz* low = &palette.ln_beam()[here.low * AirPalette::kSunNodes];
    const FloatXyz* high = low + AirPalette::kSunNodes;
    for (std::size_t n = 0; n < AirPalette::kSunNodes; ++n) {
        for (std::size_t i = 0; i < low[n].size(); ++i) {
            ln_[n][i] = low[n][i] + here.share * (high[n][i] - low[n][i]);
        }
    }
}

GLOAM_VECTOR_CLONES void BeamAtHeight::light(const AirPalette::Row& row, const BySide& zenith_rad,
                                             std::array<BySide, 3>& light) const {
    constexpr float kLast = static_cast<float>(AirPalette::kSunNodes - 1) - 0.001F;
    BySide place;
    BySide lit;
    for (std::size_t s = 0; s < kPadded; ++s) {
        const float square = 1.0F - zenith_rad[s] / reach_rad_;
        lit[s] = square > 0.0F ? 1.0F : 0.0F;
        place[s] =
            std::min(std::sqrt(std::max(square, 0.0F)) * static_cast<float>(ColumnTable::kNodes - 1), kLast);
    }
    // What the air takes hardly depends on the side: straight between the first and the last.
    const FloatXyz first = between(row.ln_air, AirPalette::kSunNodes, base_, sun_place(place[0]));
    const FloatXyz last = between(row.ln_air, AirPalette::kSunNodes, base_, sun_place(place[kGridSides - 1]));
    const float span = place[kGridSides - 1] - place[0];
    const float per_place = std::abs(span) > 1e-3F ? 1.0F / span : 0.0F;
    for (std::size_t s = 0; s < kGridSides; ++s) {
        const SunPlace at = sun_place(place[s]);
        const float share = (place[s] - place[0]) * per_place;
        for (std::size_t i = 0; i < 3; ++i) {
            light[i][s] = ln_[at.node][i] + at.share * (ln_[at.node + 1][i] - ln_[at.node][i]) + first[i] +
                          share * (last[i] - first[i]);
        }
    }
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t s = 0; s < kPadded; ++s) {
            light[i][s] = lit[s] * exponential(light[i][s]);
        }
    }
}

LayerLight::LayerLight(const SkyPalette& palette, const CloudLayer& layer, const SeenLayer& seen,
                       DiffuseLeft left)
    : palette_(&palette),
      optics_(layer.optics),
      left_(left),
      base_m_(seen.base_m),
      base_(palette.air(), seen.base_m, seen.base_m),
      middle_(palette.air(), seen.middle_m, seen.base_m),
      top_(palette.air(), layer.top_m, seen.base_m),
      flux_(row_place(seen.base_m, DiffuseField::kRows, AirPalette::kFluxRows)),
      base_sun_(palette.air().air().beam.columns(), seen.base_m),
      top_sun_(palette.air().air().beam.columns(), layer.top_m) {}

GLOAM_VECTOR_CLONES void LayerLight::in_row(std::size_t r, RowElements& e) const {
    static const BySide kAzimuthCosine = [] {
        BySide cosines{};
        for (std::size_t s = 0; s < kPadded; ++s) {
            cosines[s] = static_cast<float>(std::cos(kPi / 12.0 * static_cast<double>(s)));
        }
        return cosines;
    }();
    const AirPalette::Row& row = palette_->air().rows()[r];
    const SkyPalette::Row& sky_row = palette_->rows()[r];
    const CloudOptics& optics = optics_;
    const double radius_m = air::kEarthRadius_m + base_m_;
    e.path_m = path_to_radius_m(row.ray.start_radius_m, row.ray.cos_zenith, radius_m, true);
    e.ground_m =
        static_cast<float>(air::kEarthRadius_m * std::asin(e.path_m * row.ray.sin_zenith / radius_m));
    const auto mu = static_cast<float>((row.ray.start_radius_m * row.ray.cos_zenith + e.path_m) / radius_m);
    const auto depth = static_cast<float>(optics.optical_depth);
    const auto albedo = static_cast<float>(optics.diffuse_albedo());
    const float diffusing_depth = narrow(1.0 - optics.asymmetry) * depth;
    e.behind = exponential(-depth / mu);
    e.thin = exponential(-diffusing_depth / mu);
    const auto start =
        static_cast<float>(row.ray.start_radius_m / radius_m * std::cos(palette_->sun_zenith_rad()));
    const auto grow = static_cast<float>(e.path_m / radius_m);
    const BySide& cosine = sky_row.cosine;
    BySide zenith_rad;
    BySide from_below;
    BySide skin;
    const FromBelow below(mu, albedo);
    const auto skin_peak = narrow(kLightFromAbove.skin) / (4.0F * mu);
    for (std::size_t s = 0; s < kPadded; ++s) {
        zenith_rad[s] = kPiFloat / 2.0F - arc_sine(start + grow * cosine[s]);
        from_below[s] = below.lit(cosine[s]);
        skin[s] = skin_peak * henyey_greenstein_float(narrow(kLightFromAbove.skin_asymmetry), cosine[s]);
    }
    BySide over;
    base_sun_.apparent_rad(zenith_rad, e.under);
    top_sun_.apparent_rad(zenith_rad, over);
    for (std::size_t s = 0; s < kPadded; ++s) {
        e.under[s] = sine(e.under[s] - kPiFloat / 2.0F);
        over[s] = sine(kPiFloat / 2.0F - over[s]);
    }
    std::array<BySide, 3> base{};
    std::array<BySide, 3> top{};
    base_.light(row, zenith_rad, base);
    top_.light(row, zenith_rad, top);
    middle_.light(row, zenith_rad, e.fronts);
    std::array<BySide, 3> down;
    std::array<BySide, 3> up;
    flux(row.ln_down, flux_, zenith_rad, kAzimuthCosine, down);
    flux(row.ln_up, flux_, zenith_rad, kAzimuthCosine, up);
    const float passed = left_.above * std::max(0.0F, 1.0F - albedo - e.behind);
    const float returned = left_.below * albedo;
    const float even_through = narrow(kLightFromAbove.even) / (4.0F / 3.0F + diffusing_depth);
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t s = 0; s < kPadded; ++s) {
            const float under = std::max(e.under[s], 0.0F);
            const float above = e.under[s] > 0.0F ? 0.0F : over[s];
            e.base[i][s] = base[i][s] * under * from_below[s];
            e.through[i][s] = top[i][s] * above * even_through;
            e.skin[i][s] = top[i][s] * above * skin[s];
            e.fronts[i][s] *= std::min(from_below[s], 1.0F);
            e.diffuse[i][s] = passed * down[i][s] + returned * up[i][s];
        }
    }
}

}  // namespace gloam::sky
