#include "sheet/section_ray_labels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheet/label_column.hpp"
#include "sheet/palette.hpp"
#include "sheet/ray_light.hpp"
#include "sheet/section_ground.hpp"

namespace gloam::sheet {
namespace {

using outlook::SectionRay;

std::string elevation_text(Angle elevation) {
    const double tenths = std::round(elevation.degrees() * 10.0);
    return fmt::format("{}{:.1f}°", tenths < 0.0 ? "−" : "", std::abs(tenths) / 10.0);
}

/// Labels of one kind, gathered first and then kept apart.
struct Labels {
    std::vector<TextBlock> texts;
    std::vector<LabelRoom> rooms;
    std::vector<double> lefts;
    std::vector<Colour> colours;

    void add(TextBlock text, double left, double top, Colour colour) {
        rooms.push_back({top, text.height_px()});
        lefts.push_back(left);
        colours.push_back(colour);
        texts.push_back(std::move(text));
    }
    void put(Drawing& drawing, double top, double bottom) const {
        const std::vector<double> tops = label_tops(rooms, top, bottom);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            drawing.put(texts[i], {lefts[i], tops[i]}, colours[i]);
        }
    }
};

}  // namespace

std::string ray_label(const SectionRay& ray, const SectionScene& scene) {
    const std::string clock = scene.zone.clock(ray.instant);
    const std::string sun = elevation_text(ray.sun_elevation);
    if (!ray.lit) {
        return fmt::format("{}{}: Earth's shadow", clock, scene.sizes.narrow ? "" : ", sun " + sun);
    }
    if (scene.sizes.narrow) {
        return fmt::format("{}\n{}", clock, sun);
    }
    return fmt::format("{}{}\nsun {}\n{:.0f} % gets through", clock, is_best(ray, scene) ? ", best" : "", sun,
                       100.0 * light_left(ray, 0.0));
}

void label_rays(Drawing& drawing, const SectionScene& scene) {
    const Box& box = scene.arch.box();
    const double gap = 8.0 * scene.sizes.unit_px;
    Labels beyond;
    Labels in_ground;
    for (const SectionRay& ray : scene.section.rays) {
        if (ray.points.empty()) {
            continue;
        }
        TextBlock text(ray_label(ray, scene), {scene.sizes.small_px, is_best(ray, scene)});
        const Point end = scene.arch.at(ray.points.back());
        if (ray.lit) {
            const double top = end.y - text.height_px() / 2.0;
            const bool arrives = light_left(ray, 0.0) >= kMostlyBlocked;
            beyond.add(std::move(text), end.x + gap, top, arrives ? kSunlight : kNoLight);
        } else {
            const double left =
                std::min(end.x - text.width_px() / 2.0, box.left + box.width - text.width_px());
            in_ground.add(std::move(text), left, end.y + 1.7 * scene.sizes.small_px + gap, kQuietInk);
        }
    }
    beyond.put(drawing, 0.0, box.top + box.height);
    in_ground.put(drawing, box.top, box.top + box.height + ground_depth(scene.sizes));
}

}  // namespace gloam::sheet
