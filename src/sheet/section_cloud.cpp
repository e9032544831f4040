#include "sheet/section_cloud.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geo/light_path_grid.hpp"
#include "sheet/cloud_strokes.hpp"
#include "sheet/label_column.hpp"
#include "sheet/palette.hpp"
#include "sheet/section_ground.hpp"

namespace gloam::sheet {
namespace {

/// Cover under which a layer is not worth a name.
constexpr double kHardlyAny = 0.05;

bool shows(const outlook::SectionLayer& layer) {
    constexpr double kStep_m = geo::LightPathGrid::kStep_m;
    constexpr int kSteps = static_cast<int>((Arch::kBehind_m + Arch::kAhead_m) / kStep_m);
    for (int i = 0; i <= kSteps; ++i) {
        if (cover_at(layer, i * kStep_m - Arch::kBehind_m) > kHardlyAny) {
            return true;
        }
    }
    return false;
}

}  // namespace

void draw_clouds(Drawing& drawing, const SectionScene& scene) {
    for (const outlook::SectionLayer& layer : scene.section.layers) {
        drawing.strokes(cloud_strokes(layer, scene.arch, scene.sizes.unit_px),
                        {tone_of(layer.band), stroke_width(scene.sizes.unit_px)});
    }
}

std::string layer_label(const outlook::SectionLayer& layer, bool narrow) {
    if (!shows(layer)) {
        return {};
    }
    const auto name = weather::name_of(layer.band);
    const double base_km = layer.base_m / 1e3;
    return narrow ? fmt::format("{}\n{:.1f} km", name, base_km)
                  : fmt::format("{} cloud\nfrom {:.1f} km", name, base_km);
}

void label_clouds(Drawing& drawing, const SectionScene& scene) {
    std::vector<TextBlock> texts;
    std::vector<LabelRoom> rooms;
    std::vector<Colour> tones;
    for (const outlook::SectionLayer& layer : scene.section.layers) {
        TextBlock text(layer_label(layer, scene.sizes.narrow), {scene.sizes.small_px, true, Align::kRight});
        const double middle_m = std::min((layer.base_m + layer.top_m) / 2.0, Arch::kTop_m);
        const double middle = scene.arch.at(-Arch::kBehind_m, middle_m).y;
        if (text.width_px() > 0.0) {
            rooms.push_back({middle - text.height_px() / 2.0, text.height_px()});
            tones.push_back(type_tone_of(layer.band));
            texts.push_back(std::move(text));
        }
    }
    const Box& box = scene.arch.box();
    const std::vector<double> tops =
        label_tops(rooms, box.top, box.top + box.height + ground_depth(scene.sizes));
    for (std::size_t i = 0; i < texts.size(); ++i) {
        drawing.put(texts[i], {box.left - 8.0 * scene.sizes.unit_px - texts[i].width_px(), tops[i]},
                    tones[i]);
    }
}

}  // namespace gloam::sheet
