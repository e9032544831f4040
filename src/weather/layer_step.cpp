#include "weather/layer_step.hpp"

#include <algorithm>

#include "weather/averages.hpp"
#include "weather/humidity_cover.hpp"
#include "weather/layers_from_bands.hpp"
#include "weather/layers_from_levels.hpp"

namespace gloam::weather {
namespace {

/// Cover that no field holds as it is; none where the fields themselves are cover.
std::vector<Field> worked_out(const RouteReading& reading, const RouteStep& step) {
    std::vector<Field> cover;
    if (reading.quantity == Quantity::kRelativeHumidity) {
        std::ranges::transform(step.cover, std::back_inserter(cover),
                               [](const Field* field) { return humidity_cover(*field); });
    } else if (!step.earlier.empty()) {
        cover = later_part(step);
    }
    return cover;
}

std::vector<const Field*> pointers_to(const std::vector<Field>& fields) {
    std::vector<const Field*> pointers;
    std::ranges::transform(fields, std::back_inserter(pointers), [](const Field& field) { return &field; });
    return pointers;
}

/// Clears the cells of `present` where none of the fields has a value.
void keep_present(const std::vector<const Field*>& fields, std::vector<std::uint8_t>& present) {
    const auto complete = [](const Field* field) { return field->present.empty(); };
    if (std::ranges::any_of(fields, complete)) {
        return;
    }
    for (std::size_t cell = 0; cell < present.size(); ++cell) {
        const auto has_value = [cell](const Field* field) { return field->present[cell] != 0; };
        present[cell] = present[cell] != 0 && std::ranges::any_of(fields, has_value) ? 1 : 0;
    }
}

/// The fields that speak of this band; a total speaks of each.
std::vector<const Field*> fields_of(Band band, const std::vector<const Field*>& cover) {
    std::vector<const Field*> fields;
    std::ranges::copy_if(cover, std::back_inserter(fields), [band](const Field* field) {
        const Level& level = field->level;
        return level.kind == LevelKind::kWholeAtmosphere ||
               level.band.value_or(band_of(level.pressure_pa)) == band;
    });
    return fields;
}

}  // namespace

LayerStep layer_step(const RouteReading& reading, const RouteStep& step) {
    const std::vector<Field> own = worked_out(reading, step);
    const auto cover = own.empty() ? step.cover : pointers_to(own);
    std::array<std::vector<const Field*>, 3> by_band;
    LayerStep layers{.from = step.from, .to = step.to, .bands = {}, .present = {}};
    layers.present.assign(cover.front()->values.size(), 1);
    for (const Band band : kBands) {
        by_band[index_of(band)] = fields_of(band, cover);
        keep_present(by_band[index_of(band)], layers.present);
    }
    layers.bands = reading.level == LevelKind::kPressure
                       ? layers_from_levels(cover, step.heights)
                       : layers_from_bands({by_band[0].front(), by_band[1].front(), by_band[2].front()},
                                           step.bounds, step.heights);
    return layers;
}

}  // namespace gloam::weather
