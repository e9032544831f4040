#include "sky/sky_mixer.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <optional>

#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"
#include "sky/elementary.hpp"
#include "sky/seen_sun.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

using Grid = geo::LightPathGrid;
constexpr double kPi = std::numbers::pi;
constexpr float kPiFloat = 3.14159265F;
constexpr std::size_t kPadded = BySide{}.size();
// As in SkyPainter.
constexpr double kOutside_m = 10.0;
constexpr float kLeastCover = 1e-3F;
constexpr double kInCloud_m = 30.0;

/// Directions of the columns.
struct Compass {
    ByColumn cosine{};
    ByColumn sine{};
    ByColumn place{};  ///< sign(cosine) sqrt(|cosine|): where FreeLines' places lie evenly
    ByColumn near{};   ///< 1 within 60 deg of the sun, else 0
};

Compass make_compass() {
    Compass compass;
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        const double azimuth = Angle::degrees(azimuth_deg(c)).radians();
        const double cosine = std::cos(azimuth);
        compass.cosine[c] = static_cast<float>(cosine);
        compass.sine[c] = static_cast<float>(std::sin(azimuth));
        compass.place[c] = static_cast<float>(std::copysign(std::sqrt(std::abs(cosine)), cosine));
        compass.near[c] = std::abs(azimuth) < kPi / 3.0 - 1e-9 ? 1.0F : 0.0F;
    }
    return compass;
}

const Compass kCompass = make_compass();

/// A layer as this viewer sees it.
struct SeenLayer {
    std::size_t index = 0;  ///< in CloudLines
    double base_m = 0.0;    ///< not below the viewer
    double middle_m = 0.0;
    std::size_t base_level = 0;  ///< in Levels
    std::size_t middle_level = 0;
    std::size_t top_level = 0;
};

/// Heights at which P is worked out, rising.
struct Levels {
    static constexpr std::size_t kMost = 56;
    std::array<FreeLines, kMost> lines;
    std::size_t count = 0;
};

/// M: see SkyPainter.
float diffuse_dimming(const SkyPalette& palette, const CloudLines& clouds) {
    float sum = 0.0F;
    for (int i = 0; i < 6; ++i) {
        sum +=
            clouds.mean_free(palette.air().air().beam.columns(), 1.0e3 + 2.0e3 * i, palette.sun_zenith_rad());
    }
    return 1.0F - 0.75F * (1.0F - sum / 6.0F);
}

/// Value of a table of lines at places (along, line): [point][line], linear both ways.
struct Bilinear {
    std::array<std::uint32_t, kGridColumns> corner{};  ///< index of the lower point and line
    ByColumn up{};                                     ///< weight of the upper point
    ByColumn right{};                                  ///< weight of the upper line

    GLOAM_INLINE void set(std::size_t c, float point, float most_points, float line) {
        const float inside = std::clamp(point, 0.0F, most_points);
        const auto low = static_cast<std::uint32_t>(std::min(inside, most_points - 1.0F));
        const float inside_line = std::clamp(line, 0.0F, static_cast<float>(Grid::kLines - 1));
        const auto low_line =
            static_cast<std::uint32_t>(std::min(inside_line, static_cast<float>(Grid::kLines - 2)));
        corner[c] = low * static_cast<std::uint32_t>(kLanes) + low_line;
        up[c] = inside - static_cast<float>(low);
        right[c] = inside_line - static_cast<float>(low_line);
    }

    GLOAM_INLINE ByColumn read(const float* table) const {
        ByColumn values;
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            const float* at = table + corner[c];
            const float left = at[0] + up[c] * (at[kLanes] - at[0]);
            const float after = at[1] + up[c] * (at[kLanes + 1] - at[1]);
            values[c] = left + right[c] * (after - left);
        }
        return values;
    }
};

GLOAM_INLINE float line_place(float aside_m) {
    return (aside_m - static_cast<float>(Grid::kFirstAside_m)) / static_cast<float>(Grid::kLineSpacing_m);
}

GLOAM_INLINE float henyey_greenstein_float(float asymmetry, float cosine) {
    const float square = asymmetry * asymmetry;
    const float base = 1.0F + square - 2.0F * asymmetry * cosine;
    return (1.0F - square) / (base * std::sqrt(base));
}

/// Place of a height between two rows of a table whose rows stand at 100 km (i / (rows - 1))^2.
struct RowPlace {
    std::size_t low;
    float share;
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

/// Sunlight at one height of a layer, by node of the sun's zenith angle.
class BeamAtHeight {
  public:
    BeamAtHeight(const AirPalette& palette, const ColumnTable& columns, double height_m, double base_m)
        : base_(row_place(base_m, ColumnTable::kRows, AirPalette::kBeamRows)) {
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

    /// Light by side, through the air in front of the layer's base.
    GLOAM_VECTOR_CLONES void light(const AirPalette::Row& row, const BySide& zenith_rad,
                                   std::array<BySide, 3>& light) const {
        constexpr float kLast = static_cast<float>(AirPalette::kSunNodes - 1) - 0.001F;
        BySide place;
        BySide lit;
        for (std::size_t s = 0; s < kPadded; ++s) {
            const float square = 1.0F - zenith_rad[s] / reach_rad_;
            lit[s] = square > 0.0F ? 1.0F : 0.0F;
            place[s] = std::min(
                std::sqrt(std::max(square, 0.0F)) * static_cast<float>(ColumnTable::kNodes - 1), kLast);
        }
        // What the air takes hardly depends on the side: straight between the first and the last.
        const FloatXyz first = between(row.ln_air, AirPalette::kSunNodes, base_, sun_place(place[0]));
        const FloatXyz last =
            between(row.ln_air, AirPalette::kSunNodes, base_, sun_place(place[kGridSides - 1]));
        const float span = place[kGridSides - 1] - place[0];
        const float per_place = std::abs(span) > 1e-3F ? 1.0F / span : 0.0F;
        for (std::size_t s = 0; s < kGridSides; ++s) {
            const SunPlace at = sun_place(place[s]);
            const float share = (place[s] - place[0]) * per_place;
            for (std::size_t i = 0; i < 3; ++i) {
                light[i][s] = ln_[at.node][i] + at.share * (ln_[at.node + 1][i] - ln_[at.node][i]) +
                              first[i] + share * (last[i] - first[i]);
            }
        }
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t s = 0; s < kPadded; ++s) {
                light[i][s] = lit[s] * exponential(light[i][s]);
            }
        }
    }

  private:
    RowPlace base_;
    float reach_rad_;
    std::array<FloatXyz, AirPalette::kSunNodes> ln_;
};

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

/// What cloud of one layer in one row would send, for full light and full cover.
struct RowElements {
    double path_m = 0.0;
    float ground_m = 0.0F;
    float behind = 0.0F;
    bool any_below = false;         ///< whether the sun is under the base for any side
    BySide under;                   ///< sine of the sun's depression at the base
    std::array<BySide, 3> base;     ///< beam times what lit_from_below() makes of it
    std::array<BySide, 3> through;  ///< beam at the top times what comes through whatever the cover
    std::array<BySide, 3> gaps;     ///< the same, what comes through as far as the cover is open
    std::array<BySide, 3> fronts;
    std::array<BySide, 3> diffuse;
};

/// Height over the viewer at which the sun's last light passes.
double shadow_height_m(const ColumnTable& columns, double sun_zenith_rad) {
    double height_m = 0.0;
    while (height_m < air::kTopOfAir_m && columns.shadow_edge_rad(height_m) < sun_zenith_rad) {
        height_m += 1.0e3;
    }
    return height_m;
}

/// The sun as a layer has it: made once for all rows.
struct LayerLight {
    LayerLight(const AirPalette& palette, const ColumnTable& columns, const SeenLayer& seen, double top_m)
        : base(palette, columns, seen.base_m, seen.base_m),
          middle(palette, columns, seen.middle_m, seen.base_m),
          top(palette, columns, top_m, seen.base_m),
          flux(row_place(seen.base_m, DiffuseField::kRows, AirPalette::kFluxRows)),
          base_sun(columns, seen.base_m),
          top_sun(columns, top_m) {}

    BeamAtHeight base;
    BeamAtHeight middle;
    BeamAtHeight top;
    RowPlace flux;
    SeenSun base_sun;
    SeenSun top_sun;
};

/// Distance along the ground to a point of a ray at `radius_m` from the Earth's centre.
float ground_of(double path_m, const AirRay& ray, double radius_m) {
    return static_cast<float>(air::kEarthRadius_m * std::asin(path_m * ray.sin_zenith / radius_m));
}

/// P round the viewer at one distance.
GLOAM_VECTOR_CLONES void read_free(const FreeLines& lines, float ground_m, ByColumn& free) {
    const float root = std::sqrt(ground_m);
    const float middle = lines.place_of(0.0F);
    const float stretch = lines.place_of(root) - middle;
    const auto most = static_cast<float>(lines.places - 1);
    Bilinear at;
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        at.set(c, middle + stretch * kCompass.place[c], most, line_place(ground_m * kCompass.sine[c]));
    }
    free = at.read(lines.ln_free.front().data());
    for (float& value : free) {
        value = exponential(value);
    }
}

class Mixer {
  public:
    Mixer(const SkyPalette& palette, const CloudLines& clouds)
        : palette_(palette), clouds_(clouds), columns_(palette.air().air().beam.columns()) {
        find_layers();
        make_levels();
        dimming_ = diffuse_dimming(palette, clouds);
    }

    void mix(double sun_distance_au, MixedSky& sky) const;

  private:
    void find_layers();
    void make_levels();
    std::size_t level_at(double height_m) const;
    void elements(std::size_t r, const SeenLayer& seen, const LayerLight& light, RowElements& e) const;
    void mix_row(std::size_t r, const std::array<std::optional<LayerLight>, kMostLayers>& lights, float scale,
                 MixedSky& sky) const;

    const SkyPalette& palette_;
    const CloudLines& clouds_;
    const ColumnTable& columns_;
    std::array<SeenLayer, kMostLayers> layers_;
    std::size_t layer_count_ = 0;
    Levels levels_;
    float dimming_ = 1.0F;
};

void Mixer::find_layers() {
    const double viewer_m = palette_.air().viewer_height_m();
    for (std::size_t k = 0; k < clouds_.layers().size(); ++k) {
        const CloudLayer& layer = clouds_.layers()[k];
        if (layer.top_m <= viewer_m + kInCloud_m) {
            continue;
        }
        SeenLayer& seen = layers_[layer_count_++];
        seen.index = k;
        seen.base_m = std::max(layer.base_m, viewer_m + kInCloud_m);
        seen.middle_m = 0.5 * (seen.base_m + layer.top_m);
    }
}

void Mixer::make_levels() {
    const double viewer_m = palette_.air().viewer_height_m();
    std::array<double, Levels::kMost> heights_m{};
    std::size_t count = 0;
    const auto add = [&](double height_m) { heights_m[count++] = height_m; };
    for (std::size_t k = 0; k < layer_count_; ++k) {
        const CloudLayer& layer = clouds_.layers()[layers_[k].index];
        add(layer.base_m - kOutside_m);
        add(0.5 * (layer.base_m + layer.top_m));
        add(layer.top_m + kOutside_m);
    }
    // With the sun low its rays graze layers far off: P changes between them too. After sunset it changes in
    // the air just above the Earth's shadow, wherever that stands.
    const std::size_t hugging = count;
    const auto fill = [&](double height_m) {
        const auto near = [height_m](double other_m) { return std::abs(other_m - height_m) < 0.3e3; };
        if (std::none_of(heights_m.begin(), heights_m.begin() + static_cast<std::ptrdiff_t>(hugging), near)) {
            add(height_m);
        }
    };
    add(viewer_m + 1.0);
    const double sun_deg = 90.0 - palette_.sun_zenith_rad() * 180.0 / kPi;
    const double step_m = sun_deg < 3.0 ? 1.5e3 : 4.0e3;
    for (double height_m = step_m; height_m < 14.0e3; height_m += step_m) {
        fill(height_m);
    }
    const double shadow_m = std::min(shadow_height_m(columns_, palette_.sun_zenith_rad()) + 20.0e3, 96.0e3);
    for (double height_m = 14.0e3; height_m < shadow_m; height_m += 3.0e3) {
        add(height_m);
    }
    add(shadow_m);
    add(99.0e3);
    std::sort(heights_m.begin(), heights_m.begin() + static_cast<std::ptrdiff_t>(count));
    const AirPalette::Row& lowest = palette_.air().rows().front();
    for (std::size_t i = 0; i < count; ++i) {
        if (i > 0 && heights_m[i] < heights_m[i - 1] + 1.0) {
            continue;
        }
        const double path_m =
            path_to_radius_m(lowest.ray.start_radius_m, lowest.ray.cos_zenith,
                             air::kEarthRadius_m + std::max(heights_m[i], viewer_m + kInCloud_m), true);
        clouds_.free_lines(columns_, heights_m[i], path_m * lowest.ray.sin_zenith, palette_.sun_zenith_rad(),
                           levels_.lines[levels_.count++]);
    }
    for (std::size_t k = 0; k < layer_count_; ++k) {
        const CloudLayer& layer = clouds_.layers()[layers_[k].index];
        layers_[k].base_level = level_at(layer.base_m - kOutside_m);
        layers_[k].middle_level = level_at(0.5 * (layer.base_m + layer.top_m));
        layers_[k].top_level = level_at(layer.top_m + kOutside_m);
    }
}

std::size_t Mixer::level_at(double height_m) const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < levels_.count; ++i) {
        if (std::abs(levels_.lines[i].height_m - height_m) <
            std::abs(levels_.lines[best].height_m - height_m)) {
            best = i;
        }
    }
    return best;
}

GLOAM_VECTOR_CLONES void Mixer::elements(std::size_t r, const SeenLayer& seen, const LayerLight& beams,
                                         RowElements& e) const {
    static const BySide kAzimuthCosine = [] {
        BySide cosines{};
        for (std::size_t s = 0; s < kPadded; ++s) {
            cosines[s] = static_cast<float>(std::cos(kPi / 12.0 * static_cast<double>(s)));
        }
        return cosines;
    }();
    const AirPalette::Row& row = palette_.air().rows()[r];
    const SkyPalette::Row& sky_row = palette_.rows()[r];
    const CloudLayer& layer = clouds_.layers()[seen.index];
    const CloudOptics& optics = layer.optics;
    const double radius_m = air::kEarthRadius_m + seen.base_m;
    e.path_m = path_to_radius_m(row.ray.start_radius_m, row.ray.cos_zenith, radius_m, true);
    e.ground_m =
        static_cast<float>(air::kEarthRadius_m * std::asin(e.path_m * row.ray.sin_zenith / radius_m));
    const auto mu = static_cast<float>((row.ray.start_radius_m * row.ray.cos_zenith + e.path_m) / radius_m);
    const auto depth = static_cast<float>(optics.optical_depth);
    const auto albedo = static_cast<float>(optics.diffuse_albedo());
    e.behind = exponential(-depth / mu);
    const auto start =
        static_cast<float>(row.ray.start_radius_m / radius_m * std::cos(palette_.sun_zenith_rad()));
    const auto grow = static_cast<float>(e.path_m / radius_m);
    const BySide& cosine = sky_row.cosine;
    BySide zenith_rad;
    BySide from_below;
    BySide forward;
    const float even = std::min(0.885F * albedo * albedo, 0.28F);
    const float peak = 1.756F / (4.0F * (mu + 0.046F));
    for (std::size_t s = 0; s < kPadded; ++s) {
        zenith_rad[s] = kPiFloat / 2.0F - arc_sine(start + grow * cosine[s]);
        from_below[s] = even + peak * henyey_greenstein_float(0.64F, cosine[s]);
        forward[s] = 0.15F * henyey_greenstein_float(0.5F, cosine[s]);
    }
    BySide over;
    for (std::size_t s = 0; s < kGridSides; ++s) {
        e.under[s] = sine(beams.base_sun.apparent_rad(zenith_rad[s]) - kPiFloat / 2.0F);
        over[s] = -sine(beams.top_sun.apparent_rad(zenith_rad[s]) - kPiFloat / 2.0F);
    }
    std::array<BySide, 3> base;
    std::array<BySide, 3> top;
    beams.base.light(row, zenith_rad, base);
    beams.top.light(row, zenith_rad, top);
    beams.middle.light(row, zenith_rad, e.fronts);
    std::array<BySide, 3> down;
    std::array<BySide, 3> up;
    flux(row.ln_down, beams.flux, zenith_rad, kAzimuthCosine, down);
    flux(row.ln_up, beams.flux, zenith_rad, kAzimuthCosine, up);
    const float passed = std::max(0.0F, 1.0F - albedo - e.behind);
    const float even_through = 0.4F / (1.333F + (1.0F - static_cast<float>(optics.asymmetry)) * depth);
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t s = 0; s < kGridSides; ++s) {
            const float under = std::max(e.under[s], 0.0F);
            const float above = e.under[s] > 0.0F ? 0.0F : over[s];
            e.base[i][s] = base[i][s] * under * from_below[s];
            e.through[i][s] = top[i][s] * above * even_through;
            e.gaps[i][s] = top[i][s] * above * forward[s];
            e.fronts[i][s] *= std::min(from_below[s], 1.0F);
            e.diffuse[i][s] = passed * down[i][s] + albedo * up[i][s];
        }
    }
}

GLOAM_VECTOR_CLONES void Mixer::mix_row(std::size_t r,
                                        const std::array<std::optional<LayerLight>, kMostLayers>& lights,
                                        float scale, MixedSky& sky) const {
    const AirPalette::Row& row = palette_.air().rows()[r];
    const SkyPalette::Row& light = palette_.rows()[r];
    // P at every level where the row's rays pass it.
    std::array<ByColumn, Levels::kMost> free;
    std::array<std::size_t, AirPalette::kSteps> level_below;
    std::array<bool, Levels::kMost> needed{};
    for (std::size_t s = 0, level = 0; s < AirPalette::kSteps; ++s) {
        while (level + 2 < levels_.count && levels_.lines[level + 1].height_m < row.ray.steps[s].height_m) {
            ++level;
        }
        level_below[s] = level;
        needed[level] = needed[level + 1] = true;
    }
    for (std::size_t l = 0; l < levels_.count; ++l) {
        if (!needed[l]) {
            continue;
        }
        const double radius_m = air::kEarthRadius_m + levels_.lines[l].height_m;
        const double path_m = path_to_radius_m(row.ray.start_radius_m, row.ray.cos_zenith, radius_m, true);
        read_free(levels_.lines[l], ground_of(path_m, row.ray, radius_m), free[l]);
    }
    std::array<RowElements, kMostLayers> elements;
    for (std::size_t k = 0; k < layer_count_; ++k) {
        this->elements(r, layers_[k], *lights[k], elements[k]);
    }
    // Air light up to each layer, and to the end of the ray.
    std::array<ColumnXyz, kMostLayers> near{};
    ColumnXyz whole{};
    for (std::size_t s = 0; s < AirPalette::kSteps; ++s) {
        const AirStep& step = row.ray.steps[s];
        const std::size_t level = level_below[s];
        const double low_m = levels_.lines[level].height_m;
        const auto share = static_cast<float>(
            std::clamp((step.height_m - low_m) / (levels_.lines[level + 1].height_m - low_m), 0.0, 1.0));
        ByColumn step_free;
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            step_free[c] = free[level][c] + share * (free[level + 1][c] - free[level][c]);
        }
        for (std::size_t k = 0; k < layer_count_; ++k) {
            if (elements[k].path_m >= step.from_m && elements[k].path_m < step.to_m) {
                const auto part =
                    static_cast<float>((elements[k].path_m - step.from_m) / (step.to_m - step.from_m));
                for (std::size_t i = 0; i < 3; ++i) {
                    for (std::size_t c = 0; c < kGridColumns; ++c) {
                        const float until = light.diffuse_until[s][i][c];
                        near[k][i][c] =
                            whole[i][c] + part * step_free[c] * light.single[s][i][c] +
                            dimming_ * (until + part * (light.diffuse_until[s + 1][i][c] - until));
                    }
                }
            }
        }
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                whole[i][c] += step_free[c] * light.single[s][i][c];
            }
        }
    }
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            whole[i][c] += dimming_ * light.diffuse_until[AirPalette::kSteps][i][c];
        }
    }
    const std::size_t first = r * kGridColumns;
    ByColumn rest;
    rest.fill(1.0F);
    for (std::size_t k = 0; k < layer_count_; ++k) {
        const RowElements& e = elements[k];
        const CloudLayer& layer = clouds_.layers()[layers_[k].index];
        const float* cover_lines = clouds_.cover(layers_[k].index).front().data();
        const auto point_of = [](float along_m) {
            return (along_m - static_cast<float>(Grid::kFirst_m)) / static_cast<float>(Grid::kStep_m);
        };
        Bilinear here;
        Bilinear entry;
        ByColumn sinks_m;
        const auto thickness_m = static_cast<float>(layer.top_m - layer.base_m);
        const auto radius_m = static_cast<float>(SunRay(layer.base_m, 0.0).effective_radius_m);
        const ByColumn under = columns_of(e.under);
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            const float along_m = e.ground_m * kCompass.cosine[c];
            const float line = line_place(e.ground_m * kCompass.sine[c]);
            const float slope = std::max(under[c], 1e-6F);
            sinks_m[c] = 0.5F * slope * slope * radius_m;
            here.set(c, point_of(along_m), static_cast<float>(Grid::kPoints - 1), line);
            entry.set(c, point_of(along_m + 0.5F * std::min(thickness_m, sinks_m[c]) / slope),
                      static_cast<float>(Grid::kPoints - 1), line);
        }
        const ByColumn cover = here.read(cover_lines);
        const ByColumn cover_at_entry = entry.read(cover_lines);
        const double tangent = std::tan(row.elevation.radians());
        const auto slant = static_cast<float>(
            std::max(1.0, (layer.top_m - layer.base_m) / (layer.optics.view_cell_m * tangent)));
        const auto near_share = static_cast<float>(layer.optics.lit_share_near);
        const auto far_share = static_cast<float>(layer.optics.lit_share_far);
        const auto aspect = thickness_m / static_cast<float>(layer.optics.cell_m);
        const float thin = exponential(-0.25F * static_cast<float>(layer.optics.optical_depth));
        ByColumn free_base, free_middle, free_top;
        read_free(levels_.lines[layers_[k].base_level], e.ground_m, free_base);
        read_free(levels_.lines[layers_[k].middle_level], e.ground_m, free_middle);
        read_free(levels_.lines[layers_[k].top_level], e.ground_m, free_top);
        ByColumn below, above, gaps, fronts, lit_share, closed;
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            const float clear = std::max(1.0F - cover[c], 1e-30F);
            closed[c] = 1.0F - exponential(slant * logarithm(clear));
            lit_share[c] = kCompass.near[c] * near_share + (1.0F - kCompass.near[c]) * far_share;
            const float spread = 1.0F / (std::max(closed[c], 0.15F) * lit_share[c]);
            const float taken = under[c] > 0.0F
                                    ? std::min(1.0F, sinks_m[c] / thickness_m) *
                                          std::min(1.0F, cover_at_entry[c] / std::max(cover[c], 1e-6F))
                                    : 0.0F;
            const float area = -aspect * logarithm(std::max(clear, 1e-4F));
            const float through = spread * free_top[c];
            below[c] = spread * free_base[c];
            above[c] = through;
            gaps[c] = through * std::max(thin, 1.0F - cover[c]);
            fronts[c] = spread * area * (1.0F - taken) * free_middle[c];
        }
        MixedSky::Component& lit = sky.components[2 * k];
        MixedSky::Component& unlit = sky.components[2 * k + 1];
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            const float shown = cover[c] < kLeastCover ? 0.0F : closed[c];
            lit.share[first + c] = rest[c] * shown * lit_share[c];
            unlit.share[first + c] = rest[c] * shown * (1.0F - lit_share[c]);
            rest[c] *= 1.0F - shown;
        }
        for (std::size_t i = 0; i < 3; ++i) {
            const ByColumn base = columns_of(e.base[i]);
            const ByColumn through = columns_of(e.through[i]);
            const ByColumn gap = columns_of(e.gaps[i]);
            const ByColumn front = columns_of(e.fronts[i]);
            const ByColumn diffuse = columns_of(e.diffuse[i]);
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                const float around =
                    near[k][i][c] + (whole[i][c] - near[k][i][c]) * e.behind + diffuse[c] * dimming_;
                unlit.xyz[i][first + c] = scale * around;
                lit.xyz[i][first + c] = scale * (around + base[c] * below[c] + through[c] * above[c] +
                                                 gap[c] * gaps[c] + front[c] * fronts[c]);
            }
        }
    }
    MixedSky::Component& air = sky.components[2 * layer_count_];
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        air.share[first + c] = rest[c];
        for (std::size_t i = 0; i < 3; ++i) {
            air.xyz[i][first + c] = scale * whole[i][c];
        }
    }
}

void Mixer::mix(double sun_distance_au, MixedSky& sky) const {
    sky.count = 2 * layer_count_ + 1;
    for (std::size_t k = 0; k < layer_count_; ++k) {
        sky.layer[k] = layers_[k].index;
    }
    const auto scale = static_cast<float>(1.0 / (sun_distance_au * sun_distance_au));
    std::array<std::optional<LayerLight>, kMostLayers> lights;
    for (std::size_t k = 0; k < layer_count_; ++k) {
        lights[k].emplace(palette_.air(), columns_, layers_[k], clouds_.layers()[layers_[k].index].top_m);
    }
    for (std::size_t r = 0; r < kGridRows; ++r) {
        mix_row(r, lights, scale, sky);
    }
}

}  // namespace

void mix(const SkyPalette& palette, const CloudLines& clouds, double sun_distance_au, MixedSky& sky) {
    GLOAM_CHECK(clouds.layers().size() <= kMostLayers);
    Mixer(palette, clouds).mix(sun_distance_au, sky);
}

Panorama MixedSky::panorama(const SunState& sun) const {
    Panorama panorama{PanoramaGrid::standard(), sun, std::vector<PanoramaCell>(kDirections)};
    for (std::size_t d = 0; d < kDirections; ++d) {
        const auto turns = static_cast<std::size_t>(11.0 + azimuth_deg(d % kGridColumns) / 15.0);
        PanoramaCell& cell = panorama.cells[d / kGridColumns * kGridColumns + turns];
        for (std::size_t k = 0; k < count; ++k) {
            const auto value = [&](std::size_t i) { return static_cast<double>(components[k].xyz[i][d]); };
            const bool air = k + 1 == count;
            cell.add({static_cast<double>(components[k].share[d]),
                      {value(0), value(1), value(2)},
                      air ? Patch::kClearAir : layer[k / 2],
                      !air && k % 2 == 0});
        }
    }
    return panorama;
}

}  // namespace gloam::sky
