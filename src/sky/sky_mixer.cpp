#include "sky/sky_mixer.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "air/standard_atmosphere.hpp"
#include "sky/cloud_light.hpp"
#include "sky/elementary.hpp"
#include "sky/free_levels.hpp"
#include "sky/layer_light.hpp"
#include "sky/round_reading.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

using Grid = geo::LightPathGrid;
constexpr float kLeastCover = 1e-3F;  // as in SkyPainter

/// diffuse_left() by layer that the viewer sees, and 1.
using Left = std::array<float, kMostLayers + 1>;

Left left_by_seen(const FreeLevels& levels, const std::vector<double>& by_layer) {
    Left left{};
    for (std::size_t k = 0; k < levels.layer_count(); ++k) {
        left[k] = static_cast<float>(by_layer[levels.layers()[k].index]);
    }
    left[levels.layer_count()] = 1.0F;
    return left;
}

/// Distance along the ground to a point of a ray at `radius_m` from the Earth's centre.
float ground_of(double path_m, const AirRay& ray, double radius_m) {
    return static_cast<float>(air::kEarthRadius_m * std::asin(path_m * ray.sin_zenith / radius_m));
}

/// P where the rays of a row pass the levels that its shining steps lie between.
using RowFree = std::array<ByColumn, FreeLevels::kMost>;

void find_free(const FreeLevels& levels, std::size_t row, const AirRay& ray, const SkyPalette::Row& light,
               RowFree& free) {
    std::size_t known = 0;  // levels below are read
    for (std::size_t s = 0; s < AirPalette::kSteps; ++s) {
        const std::size_t below = levels.level_below(row, s);
        for (std::size_t l = std::max(known, below); l < below + 2 && light.shines[s]; ++l) {
            const double radius_m = air::kEarthRadius_m + levels.height_m(l);
            const double path_m = path_to_radius_m(ray.start_radius_m, ray.cos_zenith, radius_m, true);
            levels.read(l, ground_of(path_m, ray, radius_m), free[l]);
            known = l + 1;
        }
    }
}

using Elements = std::array<RowElements, kMostLayers>;

/// Light of the air of a row, up to each layer and to the end of the rays.
struct RowAir {
    std::array<ColumnXyz, kMostLayers> near;
    ColumnXyz whole;
};

GLOAM_VECTOR_CLONES void gather_air(const FreeLevels& levels, std::size_t row, const AirRay& ray,
                                    const SkyPalette::Row& light, const RowFree& free,
                                    const Elements& elements, const Left& left, RowAir& air) {
    air.whole = {};
    ColumnXyz reached{};  // diffuse light up to the layer before, and the same dimmed
    ColumnXyz dimmed{};
    for (std::size_t s = 0; s < AirPalette::kSteps; ++s) {
        const AirStep& step = ray.steps[s];
        const std::size_t level = levels.level_below(row, s);
        const double low_m = levels.height_m(level);
        const auto share = static_cast<float>(
            std::clamp((step.height_m - low_m) / (levels.height_m(level + 1) - low_m), 0.0, 1.0));
        ByColumn step_free{};
        for (std::size_t c = 0; c < kGridColumns && light.shines[s]; ++c) {
            step_free[c] = free[level][c] + share * (free[level + 1][c] - free[level][c]);
        }
        for (std::size_t k = 0; k < levels.layer_count(); ++k) {
            if (elements[k].path_m < step.from_m || elements[k].path_m >= step.to_m) {
                continue;
            }
            const auto part =
                static_cast<float>((elements[k].path_m - step.from_m) / (step.to_m - step.from_m));
            for (std::size_t i = 0; i < 3; ++i) {
                for (std::size_t c = 0; c < kGridColumns; ++c) {
                    const float until = light.diffuse_until[s][i][c];
                    const float here = until + part * (light.diffuse_until[s + 1][i][c] - until);
                    dimmed[i][c] += left[k] * (here - reached[i][c]);
                    reached[i][c] = here;
                    air.near[k][i][c] =
                        air.whole[i][c] + part * step_free[c] * light.single[s][i][c] + dimmed[i][c];
                }
            }
        }
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                air.whole[i][c] += step_free[c] * light.single[s][i][c];
            }
        }
    }
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            air.whole[i][c] += dimmed[i][c] + light.diffuse_until[AirPalette::kSteps][i][c] - reached[i][c];
        }
    }
}

/// Cover of a layer in a row, and the share of the light on its fronts that is counted at its base and top:
/// as SkyPainter's share_counted().
struct RowCover {
    ByColumn cover;
    ByColumn counted;
};

GLOAM_VECTOR_CLONES void find_cover(const CloudLines& clouds, std::size_t index, const RowElements& e,
                                    RowCover& found) {
    const CloudLayer& layer = clouds.layers()[index];
    const double thickness_m = layer.top_m - layer.base_m;
    const double radius_m = SunRay(layer.base_m, 0.0).effective_radius_m;
    const auto point_of = [](float along_m) {
        return (along_m - static_cast<float>(Grid::kFirst_m)) / static_cast<float>(Grid::kStep_m);
    };
    constexpr float kLastPoint = static_cast<float>(Grid::kPoints - 1);
    const ByColumn under = columns_of(e.under);
    Bilinear here;
    Bilinear at_base;
    Bilinear at_top;
    ByColumn by_base;
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        const float along_m = e.ground_m * kCompass.cosine[c];
        const float line = line_place(e.ground_m * kCompass.sine[c]);
        const SunEntry entry = sun_entry(thickness_m, static_cast<double>(under[c]), radius_m);
        by_base[c] = static_cast<float>(entry.by_base);
        here.set(c, point_of(along_m), kLastPoint, line);
        at_base.set(c, point_of(along_m + static_cast<float>(entry.base_m)), kLastPoint, line);
        at_top.set(c, point_of(along_m + static_cast<float>(entry.top_m)), kLastPoint, line);
    }
    const float* lines = clouds.cover(index).front().data();
    found.cover = here.read(lines);
    const ByColumn base_cover = at_base.read(lines);
    const ByColumn top_cover = at_top.read(lines);
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        const float per_cover = 1.0F / std::max(found.cover[c], 1e-6F);
        found.counted[c] = by_base[c] * std::min(1.0F, base_cover[c] * per_cover) +
                           (1.0F - by_base[c]) * std::min(1.0F, top_cover[c] * per_cover);
    }
}

/// What cover makes of a layer in a row: its shares, and the factors of its elements' light.
struct RowShow {
    ByColumn closed, lit_share;
    ByColumn base, through, skin, fronts;
};

GLOAM_VECTOR_CLONES void show_layer(const FreeLevels& levels, const SeenLayer& seen, const CloudLayer& layer,
                                    Angle elevation, const RowElements& e, const RowCover& cover,
                                    RowShow& show) {
    ByColumn free_base, free_middle, free_top;
    levels.read(seen.base_level, e.ground_m, free_base);
    levels.read(seen.middle_level, e.ground_m, free_middle);
    levels.read(seen.top_level, e.ground_m, free_top);
    const CloudOptics& optics = layer.optics;
    const double thickness_m = layer.top_m - layer.base_m;
    const auto slant =
        static_cast<float>(std::max(1.0, thickness_m / (optics.view_cell_m * std::tan(elevation.radians()))));
    const auto near_share = static_cast<float>(optics.lit_share_near);
    const auto far_share = static_cast<float>(optics.lit_share_far);
    const auto aspect = static_cast<float>(thickness_m / optics.cell_m);
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        const float clear = std::max(1.0F - cover.cover[c], 1e-30F);
        const float closed = 1.0F - exponential(slant * logarithm(clear));
        const float lit_share = kCompass.near[c] * near_share + (1.0F - kCompass.near[c]) * far_share;
        const float spread = 1.0F / (std::max(closed, 0.15F) * lit_share);
        const float area = -aspect * logarithm(std::max(clear, 1e-4F));
        show.closed[c] = cover.cover[c] < kLeastCover ? 0.0F : closed;
        show.lit_share[c] = lit_share;
        show.base[c] = spread * free_base[c];
        show.through[c] = spread * free_top[c];
        show.skin[c] = spread * free_top[c] * (1.0F - closed + closed * e.thin);
        show.fronts[c] = spread * area * (1.0F - cover.counted[c]) * free_middle[c];
    }
}

/// Puts a layer's two parts into a row that begins at `first`; `rest` is what lower layers have left open.
GLOAM_VECTOR_CLONES void put_layer(const RowElements& e, const RowShow& show, const RowAir& air,
                                   std::size_t k, float scale, std::size_t first, ByColumn& rest,
                                   MixedSky& sky) {
    MixedSky::Component& lit = sky.components[2 * k];
    MixedSky::Component& unlit = sky.components[2 * k + 1];
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        const float shown = rest[c] * show.closed[c];
        lit.share[first + c] = shown * show.lit_share[c];
        unlit.share[first + c] = shown * (1.0F - show.lit_share[c]);
        rest[c] -= shown;
    }
    for (std::size_t i = 0; i < 3; ++i) {
        const ByColumn base = columns_of(e.base[i]);
        const ByColumn through = columns_of(e.through[i]);
        const ByColumn skin = columns_of(e.skin[i]);
        const ByColumn fronts = columns_of(e.fronts[i]);
        const ByColumn diffuse = columns_of(e.diffuse[i]);
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            const float near = air.near[k][i][c];
            const float around = near + (air.whole[i][c] - near) * e.behind + diffuse[c];
            unlit.xyz[i][first + c] = scale * around;
            lit.xyz[i][first + c] = scale * (around + base[c] * show.base[c] + through[c] * show.through[c] +
                                             skin[c] * show.skin[c] + fronts[c] * show.fronts[c]);
        }
    }
}

void put_air(const RowAir& air, const ByColumn& rest, float scale, std::size_t first,
             MixedSky::Component& component) {
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        component.share[first + c] = rest[c];
        for (std::size_t i = 0; i < 3; ++i) {
            component.xyz[i][first + c] = scale * air.whole[i][c];
        }
    }
}

}  // namespace

void mix(const SkyPalette& palette, const CloudLines& clouds, double sun_distance_au, MixedSky& sky) {
    const FreeLevels levels(palette, clouds);
    const Left left =
        left_by_seen(levels, diffuse_left(clouds.layers(), palette.air().air().atmosphere.ground_albedo));
    const auto scale = static_cast<float>(1.0 / (sun_distance_au * sun_distance_au));
    std::array<std::optional<LayerLight>, kMostLayers> lights;
    sky.count = 2 * levels.layer_count() + 1;
    for (std::size_t k = 0; k < levels.layer_count(); ++k) {
        const SeenLayer& seen = levels.layers()[k];
        sky.layer[k] = seen.index;
        lights[k].emplace(palette, clouds.layers()[seen.index], seen, DiffuseLeft{left[k + 1], left[k]});
    }
    for (std::size_t r = 0; r < kGridRows; ++r) {
        const AirPalette::Row& row = palette.air().rows()[r];
        const std::size_t first = r * kGridColumns;
        RowFree free;
        find_free(levels, r, row.ray, palette.rows()[r], free);
        Elements elements;
        for (std::size_t k = 0; k < levels.layer_count(); ++k) {
            lights[k]->in_row(r, elements[k]);
        }
        RowAir air;
        gather_air(levels, r, row.ray, palette.rows()[r], free, elements, left, air);
        ByColumn rest;
        rest.fill(1.0F);
        for (std::size_t k = 0; k < levels.layer_count(); ++k) {
            const SeenLayer& seen = levels.layers()[k];
            RowCover cover;
            find_cover(clouds, seen.index, elements[k], cover);
            RowShow show;
            show_layer(levels, seen, clouds.layers()[seen.index], row.elevation, elements[k], cover, show);
            put_layer(elements[k], show, air, k, scale, first, rest, sky);
        }
        put_air(air, rest, scale, first, sky.components[2 * levels.layer_count()]);
    }
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
