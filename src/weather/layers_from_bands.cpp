#include "weather/layers_from_bands.hpp"

#include "weather/level_heights.hpp"

namespace gloam::weather {
namespace {

constexpr double kLeastPressure_pa = 100.0;
constexpr double kMostPressure_pa = 110.0e3;

std::optional<double> value_in(const Field* field, std::size_t cell) {
    const bool there = field != nullptr && has_value(*field, cell);
    return there ? std::optional(static_cast<double>(field->values[cell])) : std::nullopt;
}

struct Extent {
    double base_m;
    double top_m;
    double base_slab_m;
};

Extent extent_of(Band band, const CloudBounds& bounds, std::span<const Field* const> heights,
                 std::size_t cell) {
    const auto base_pa = value_in(bounds.base, cell);
    const auto top_pa = value_in(bounds.top, cell);
    if (base_pa && top_pa && *base_pa <= kMostPressure_pa && *top_pa >= kLeastPressure_pa &&
        *base_pa > *top_pa) {
        return {height_of_pressure_m(*base_pa, heights, cell), height_of_pressure_m(*top_pa, heights, cell),
                0.0};
    }
    const UsualHeights usual = kUsualHeights[index_of(band)];
    return {usual.base_m, usual.top_m, 2.0 * (kUnknownSpread_m + kOffStandard_m[index_of(band)])};
}

LayerField layer_field(Band band, const Field& cover, const CloudBounds& bounds,
                       std::span<const Field* const> heights) {
    const std::size_t cells = cover.values.size();
    LayerField layer{.cover = cover.values, .base_m = {}, .top_m = {}, .base_slab_m = {}};
    layer.base_m.assign(cells, 0.0F);
    layer.top_m.assign(cells, 0.0F);
    layer.base_slab_m.assign(cells, 0.0F);
    for (std::size_t cell = 0; cell < cells; ++cell) {
        if (layer.cover[cell] > 0.0F) {
            const Extent extent = extent_of(band, bounds, heights, cell);
            layer.base_m[cell] = static_cast<float>(extent.base_m);
            layer.top_m[cell] = static_cast<float>(extent.top_m);
            layer.base_slab_m[cell] = static_cast<float>(extent.base_slab_m);
        }
    }
    return layer;
}

}  // namespace

std::array<LayerField, 3> layers_from_bands(const std::array<const Field*, 3>& cover,
                                            const std::array<CloudBounds, 3>& bounds,
                                            std::span<const Field* const> heights) {
    std::array<LayerField, 3> layers;
    for (const Band band : kBands) {
        const std::size_t b = index_of(band);
        layers[b] = layer_field(band, *cover[b], bounds[b], heights);
    }
    return layers;
}

}  // namespace gloam::weather
