#include "weather/layer_step.hpp"

#include <algorithm>
#include <span>

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

/// Clears the cells of `present` where no level of the band has a value.
void keep_present(std::span<const Field* const> fields, std::vector<std::uint8_t>& present) {
    const auto complete = [](const Field* field) { return field->present.empty(); };
    if (std::ranges::any_of(fields, complete)) {
        return;
    }
    for (std::size_t cell = 0; cell < present.size(); ++cell) {
        const auto has_value = [cell](const Field* field) { return field->present[cell] != 0; };
        present[cell] = present[cell] != 0 && std::ranges::any_of(fields, has_value) ? 1 : 0;
    }
}

void fill_from_levels(LayerStep& step, const StepLevels& levels) {
    std::vector<double> pressures_pa(levels.cover.size());
    std::ranges::transform(levels.cover, pressures_pa.begin(),
                           [](const Field* field) { return field->level.pressure_pa; });
    const LevelHeights limits(slab_limits_pa(pressures_pa), levels.heights);
    for (const Band band : kBands) {
        const BandLevels in_band = levels_of(band, levels.cover);
        step.bands[index_of(band)] = layer_field(in_band, limits);
        keep_present(in_band.fields, step.present);
    }
}

/// The total may be in any of the layers: each holds it, at its usual height.
void fill_from_total(LayerStep& step, const Field& total) {
    for (const Band band : kBands) {
        const UsualHeights usual = kUsualHeights[index_of(band)];
        const auto where_cloudy = [&total](double height_m) {
            std::vector<float> heights(total.values.size());
            std::ranges::transform(total.values, heights.begin(), [height_m](float cover) {
                return cover > 0.0F ? static_cast<float>(height_m) : 0.0F;
            });
            return heights;
        };
        step.bands[index_of(band)] = {total.values, where_cloudy(usual.base_m), where_cloudy(usual.top_m),
                                      where_cloudy(usual.top_m - usual.base_m)};
    }
}

}  // namespace

LayerStep layer_step(LayerRoute route, const StepLevels& levels) {
    LayerStep step{.valid = levels.valid, .bands = {}, .present = {}};
    step.present.assign(levels.cover.front()->values.size(), 1);
    if (route == LayerRoute::kTotalOnly) {
        fill_from_total(step, *levels.cover.front());
        keep_present(levels.cover, step.present);
    } else {
        fill_from_levels(step, levels);
    }
    return step;
}

}  // namespace gloam::weather
