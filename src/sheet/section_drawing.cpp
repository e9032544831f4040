#include "sheet/section_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "sheet/palette.hpp"
#include "sheet/section_cloud.hpp"
#include "sheet/section_ground.hpp"
#include "sheet/section_notes.hpp"
#include "sheet/section_ray_labels.hpp"
#include "sheet/section_rays.hpp"

namespace gloam::sheet {
namespace {

/// The lines of text, set for the width of the page.
struct Texts {
    TextBlock title;
    TextBlock deciding;
    TextBlock source;
};

double margin(const TypeSizes& sizes) {
    return sizes.large_px;
}

Texts texts_for(const outlook::Section& section, const SectionCaption& caption, const TypeSizes& sizes,
                double width_px) {
    const double wrap_px = width_px - 2.0 * margin(sizes);
    return {TextBlock(caption.title, {sizes.medium_px, true, Align::kLeft, wrap_px, 2}),
            TextBlock(section.deciding, {sizes.large_px, false, Align::kLeft, wrap_px, 8}),
            TextBlock(caption.source, {sizes.small_px, false, Align::kLeft, wrap_px, 3})};
}

double widest(const std::vector<std::string>& labels, const TypeSizes& sizes) {
    double width = 0.0;
    for (const std::string& label : labels) {
        width = std::max(width, TextBlock(label, {sizes.small_px, true}).width_px());
    }
    return width;
}

double room_left(const outlook::Section& section, const TypeSizes& sizes) {
    std::vector<std::string> labels;
    for (const outlook::SectionLayer& layer : section.layers) {
        labels.push_back(layer_label(layer, sizes.narrow));
    }
    return widest(labels, sizes) + 8.0 * sizes.unit_px;
}

double room_right(const TypeSizes& sizes) {
    return widest({sizes.narrow ? "00:00" : "100 % gets through"}, sizes) + 8.0 * sizes.unit_px;
}

Box box_for(const outlook::Section& section, const Texts& texts, const TypeSizes& sizes, double width_px) {
    const double edge = margin(sizes) / 2.0;
    const double left = edge + room_left(section, sizes);
    const double right = width_px - edge - room_right(sizes);
    const double share = sizes.narrow ? 0.5 : 0.365;
    return {left, margin(sizes) + texts.title.height_px() + sizes.small_px, right - left, share * width_px};
}

void draw_scene(Drawing& drawing, const SectionScene& scene) {
    draw_guides(drawing, scene);
    draw_clouds(drawing, scene);
    label_guides(drawing, scene);
    draw_rays(drawing, scene);
    draw_ground(drawing, scene);
    note_arrival(drawing, scene);
    label_clouds(drawing, scene);
    label_rays(drawing, scene);
}

}  // namespace

Result<std::vector<std::byte>> draw_section(const outlook::Section& section, const SectionCaption& caption,
                                            const geo::Zone& zone, DrawingFormat format, double width_px) {
    if (!(width_px >= kLeastWidth_px && width_px <= kMostWidth_px)) {
        return fail(ErrorKind::kOutOfDomain, fmt::format("a drawing {} px wide", width_px), "width",
                    fmt::format("ask for {:.0f} to {:.0f} px", kLeastWidth_px, kMostWidth_px));
    }
    const double page_px = std::round(width_px);
    const TypeSizes sizes = type_sizes(page_px);
    const Texts texts = texts_for(section, caption, sizes, page_px);
    const Box box = box_for(section, texts, sizes, page_px);
    const double left = margin(sizes);
    const double deciding_top = box.top + box.height + ground_depth(sizes) + sizes.small_px;
    const double source_top = deciding_top + texts.deciding.height_px() + 0.6 * sizes.small_px;
    const double height_px = source_top + texts.source.height_px() + margin(sizes);
    Drawing drawing(format, static_cast<int>(page_px), static_cast<int>(std::ceil(height_px)), kPaper);
    draw_scene(drawing, {section, zone, sizes, Arch(box)});
    drawing.put(texts.title, {left, margin(sizes)}, kInk);
    drawing.put(texts.deciding, {left, deciding_top}, kInk);
    drawing.put(texts.source, {left, source_top}, kQuietInk);
    return drawing.finish();
}

}  // namespace gloam::sheet
