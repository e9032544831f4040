#include "sheet/section_notes.hpp"

#include <algorithm>

#include "sheet/canvas.hpp"
#include "sheet/palette.hpp"
#include "sheet/ray_cut.hpp"
#include "sheet/ray_light.hpp"

namespace gloam::sheet {
namespace {

TextBlock note(std::string_view words, const SectionScene& scene) {
    return TextBlock(words, {scene.sizes.medium_px, true});
}

void put_note(Drawing& drawing, const SectionScene& scene, const TextBlock& text, Point at, Colour colour) {
    drawing.put_rimmed(text, at, colour, kPaper, 3.0 * scene.sizes.unit_px);
}

/// Above the bar across the ray.
void note_stop(Drawing& drawing, const SectionScene& scene, const outlook::SectionRay& ray, double along_m) {
    const double shown_m = std::min(along_m, ray.points.back().along_m);
    const Point at = scene.arch.at(shown_m, height_at(ray, shown_m));
    const TextBlock text = note("light stops here", scene);
    put_note(drawing, scene, text,
             {at.x - 0.8 * text.width_px(), at.y - text.height_px() - 12.0 * scene.sizes.unit_px}, kInk);
}

/// Below the cloud that the ray comes to, at the viewer's plumb line. Nothing where there is cloud to light,
/// but not at the ray's end: the sentence under the drawing tells why.
void note_end(Drawing& drawing, const SectionScene& scene, const outlook::SectionRay& ray) {
    const bool lit = canvas_of(scene.section, ray) != nullptr;
    if (!lit && has_canvas(scene.section)) {
        return;
    }
    const Point end = scene.arch.at(ray.points.front());
    const TextBlock text = note(lit ? "lit from below" : "no cloud here to light", scene);
    put_note(drawing, scene, text, {end.x + 6.0 * scene.sizes.unit_px, end.y + 0.8 * text.height_px()},
             lit ? kSunlight : kInk);
}

}  // namespace

void note_arrival(Drawing& drawing, const SectionScene& scene) {
    const auto& rays = scene.section.rays;
    const auto best = std::find_if(rays.begin(), rays.end(), [&](const outlook::SectionRay& ray) {
        return is_best(ray, scene) && ray.lit && ray.points.size() > 1;
    });
    if (best == rays.end()) {
        return;
    }
    const auto stop = stop_of(*best);
    if (stop) {
        note_stop(drawing, scene, *best, stop->along_m);
    } else {
        note_end(drawing, scene, *best);
    }
}

}  // namespace gloam::sheet
