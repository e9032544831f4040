#include "weather/layers_from_levels.hpp"

#include <algorithm>

#include "weather/level_heights.hpp"

namespace gloam::weather {
namespace {

/// Levels of one band: the fields, and the place of the first in the whole column.
struct BandLevels {
    std::span<const Field* const> fields;
    std::size_t first = 0;
};

BandLevels levels_of(Band band, std::span<const Field* const> cover) {
    const auto in_band = [band](const Field* field) { return band_of(field->level.pressure_pa) == band; };
    const auto begin = std::ranges::find_if(cover, in_band);
    const auto end = std::find_if_not(begin, cover.end(), in_band);
    const auto first = static_cast<std::size_t>(begin - cover.begin());
    return {cover.subspan(first, static_cast<std::size_t>(end - begin)), first};
}

std::vector<float> greatest_cover(const BandLevels& levels) {
    std::vector<float> greatest = levels.fields.front()->values;
    for (const Field* field : levels.fields.subspan(1)) {
        std::ranges::transform(greatest, field->values, greatest.begin(),
                               [](float a, float b) { return std::max(a, b); });
    }
    return greatest;
}

/// Lowest and highest level with at least half the band's cover, by cell, as places in the column.
struct Outer {
    std::vector<std::uint16_t> lowest;
    std::vector<std::uint16_t> highest;
};

Outer outer_levels(const BandLevels& levels, const std::vector<float>& greatest) {
    Outer outer{std::vector<std::uint16_t>(greatest.size()), std::vector<std::uint16_t>(greatest.size())};
    const auto mark = [&](std::size_t level, std::vector<std::uint16_t>& places) {
        const std::vector<float>& cover = levels.fields[level]->values;
        const auto place = static_cast<std::uint16_t>(levels.first + level);
        for (std::size_t cell = 0; cell < cover.size(); ++cell) {
            places[cell] = cover[cell] >= 0.5F * greatest[cell] ? place : places[cell];
        }
    };
    for (std::size_t level = 0; level < levels.fields.size(); ++level) {
        mark(levels.fields.size() - 1 - level, outer.lowest);  // from the top down: the lowest stays
        mark(level, outer.highest);
    }
    return outer;
}

LayerField layer_field(const BandLevels& levels, const LevelHeights& limits) {
    LayerField layer{.cover = greatest_cover(levels), .base_m = {}, .top_m = {}, .base_slab_m = {}};
    const std::size_t cells = layer.cover.size();
    const Outer outer = outer_levels(levels, layer.cover);
    layer.base_m.assign(cells, 0.0F);
    layer.top_m.assign(cells, 0.0F);
    layer.base_slab_m.assign(cells, 0.0F);
    for (std::size_t cell = 0; cell < cells; ++cell) {
        if (layer.cover[cell] > 0.0F) {
            const double base_m = limits.height_m(outer.lowest[cell], cell);
            layer.base_m[cell] = static_cast<float>(base_m);
            layer.top_m[cell] = static_cast<float>(limits.height_m(outer.highest[cell] + 1U, cell));
            layer.base_slab_m[cell] =
                static_cast<float>(limits.height_m(outer.lowest[cell] + 1U, cell) - base_m);
        }
    }
    return layer;
}

}  // namespace

std::array<LayerField, 3> layers_from_levels(std::span<const Field* const> cover,
                                             std::span<const Field* const> heights) {
    std::vector<double> pressures_pa(cover.size());
    std::ranges::transform(cover, pressures_pa.begin(),
                           [](const Field* field) { return field->level.pressure_pa; });
    const LevelHeights limits(slab_limits_pa(pressures_pa), heights);
    std::array<LayerField, 3> layers;
    for (const Band band : kBands) {
        layers[index_of(band)] = layer_field(levels_of(band, cover), limits);
    }
    return layers;
}

}  // namespace gloam::weather
