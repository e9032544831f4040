#include "sheet/section_ground.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string>

#include "geo/position.hpp"
#include "sheet/palette.hpp"

namespace gloam::sheet {
namespace {

/// From here up the viewer's height above the sea shows as a hill.
constexpr double kHill_m = 50.0;

/// Heights that have a line.
constexpr std::array kGuides_km{5, 10};

double tick_gap(const TypeSizes& sizes) {
    return 7.0 * sizes.unit_px;
}

void put_centred(Drawing& drawing, const TextBlock& text, Point top_middle, Colour colour) {
    drawing.put(text, {top_middle.x - text.width_px() / 2.0, top_middle.y}, colour);
}

void draw_body(Drawing& drawing, const SectionScene& scene) {
    const Box& box = scene.arch.box();
    const std::vector<Point> surface = scene.arch.line_at(0.0);
    std::vector<Point> body = surface;
    const double bottom = box.top + box.height + ground_depth(scene.sizes);
    body.push_back({box.left + box.width, bottom});
    body.push_back({box.left, bottom});
    drawing.fill(body, kGround);
    drawing.polyline(surface, {kGroundEdge, 1.4 * scene.sizes.unit_px});
}

void draw_distances(Drawing& drawing, const SectionScene& scene) {
    const Box& box = scene.arch.box();
    const int step_km = scene.sizes.narrow ? 200 : 100;
    for (int km = step_km; km <= static_cast<int>(Arch::kAhead_m / 1e3); km += step_km) {
        const Point at = scene.arch.at(km * 1e3, 0.0);
        const Stroke tick{at, {at.x, at.y + 0.7 * tick_gap(scene.sizes)}};
        drawing.strokes({&tick, 1}, {kGroundEdge, scene.sizes.unit_px});
        const TextBlock label(fmt::format("{} km", km), {scene.sizes.small_px});
        const double rightmost = box.left + box.width - label.width_px() / 2.0;
        put_centred(drawing, label, {std::min(at.x, rightmost), at.y + tick_gap(scene.sizes)}, kQuietInk);
    }
}

/// The viewer's height above the sea, where it shows.
void draw_hill(Drawing& drawing, const SectionScene& scene, Point top, double half_top_px) {
    const double half_foot_px = half_top_px + (scene.arch.at(0.0, 0.0).y - top.y) / 2.0;
    const double half_foot_m = half_foot_px / scene.arch.px_per_m();
    const std::array hill{scene.arch.at(-half_foot_m, 0.0), Point{top.x - half_top_px, top.y},
                          Point{top.x + half_top_px, top.y}, scene.arch.at(half_foot_m, 0.0)};
    drawing.fill(hill, kGround);
    drawing.polyline(hill, {kGroundEdge, 1.4 * scene.sizes.unit_px});
}

/// A figure beside a tripod.
void draw_figure(Drawing& drawing, Point stand, double unit_px) {
    const auto at = [&](double right, double up) {
        return Point{stand.x + right * unit_px, stand.y - up * unit_px};
    };
    const std::array lines{Stroke{at(-3.5, 0), at(-3.5, 9)}, Stroke{at(-3.5, 7), at(1, 8)},
                           Stroke{at(3.5, 9), at(1, 0)}, Stroke{at(3.5, 9), at(6, 0)},
                           Stroke{at(2, 9.5), at(5, 9.5)}};
    drawing.strokes(lines, {kInk, 1.5 * unit_px});
    drawing.disc(at(-3.5, 11.5), 2.2 * unit_px, kInk);
}

void draw_viewer(Drawing& drawing, const SectionScene& scene) {
    const double figure_px = scene.sizes.small_px / 8.5;
    const double height_m = std::clamp(scene.section.viewer_height_m, 0.0, Arch::kTop_m);
    const Point stand = scene.arch.at(0.0, height_m);
    if (height_m > kHill_m) {
        draw_hill(drawing, scene, stand, 7.0 * figure_px);
    }
    draw_figure(drawing, stand, figure_px);
    const Point foot = scene.arch.at(0.0, 0.0);
    put_centred(drawing, TextBlock("you", {scene.sizes.small_px, true}),
                {foot.x, foot.y + 0.6 * tick_gap(scene.sizes)}, kInk);
}

/// The longest of the wordings that fits a width, or the last.
TextBlock fitting(std::initializer_list<std::string> wordings, double size_px, double width_px) {
    for (const std::string& words : wordings) {
        TextBlock text(words, {size_px});
        if (text.width_px() <= width_px) {
            return text;
        }
    }
    return TextBlock(*(wordings.end() - 1), {size_px});
}

void draw_direction(Drawing& drawing, const SectionScene& scene) {
    const Box& box = scene.arch.box();
    const Azimuth azimuth = scene.section.towards_sun;
    const TextBlock way = fitting(
        {fmt::format("towards the sun: {:.0f}°, {} →", azimuth.degrees(), geo::compass_point(azimuth)),
         fmt::format("sun: {:.0f}° →", azimuth.degrees())},
        scene.sizes.medium_px, box.width);
    const double times = scene.arch.stretch();
    const TextBlock stretch = fitting(
        {fmt::format("heights stretched {:.0f} times", times), fmt::format("heights × {:.0f}", times)},
        scene.sizes.small_px, box.width);
    const double middle = box.left + box.width / 2.0;
    const double bottom = box.top + box.height + ground_depth(scene.sizes) - 3.0 * scene.sizes.unit_px;
    put_centred(drawing, stretch, {middle, bottom - stretch.height_px()}, kQuietInk);
    put_centred(drawing, way, {middle, bottom - stretch.height_px() - way.height_px()}, kInk);
}

}  // namespace

double ground_depth(const TypeSizes& sizes) {
    return 1.4 * sizes.small_px + tick_gap(sizes);
}

void draw_ground(Drawing& drawing, const SectionScene& scene) {
    draw_body(drawing, scene);
    draw_distances(drawing, scene);
    draw_direction(drawing, scene);
    draw_viewer(drawing, scene);
}

void draw_guides(Drawing& drawing, const SectionScene& scene) {
    for (const int km : kGuides_km) {
        drawing.polyline(scene.arch.line_at(km * 1e3), {kGuide, scene.sizes.unit_px});
    }
    const std::array plumb{scene.arch.at(0.0, 0.0), scene.arch.at(0.0, Arch::kTop_m)};
    drawing.polyline(plumb, {kGuide, scene.sizes.unit_px, 4.0 * scene.sizes.unit_px});
}

void label_guides(Drawing& drawing, const SectionScene& scene) {
    for (const int km : kGuides_km) {
        const TextBlock label(fmt::format("{} km", km), {scene.sizes.small_px});
        const Point at = scene.arch.at(-Arch::kBehind_m, km * 1e3);
        const double left = at.x + 4.0 * scene.sizes.unit_px;
        const double top = at.y - label.height_px() - 6.0 * scene.sizes.unit_px;
        drawing.put_rimmed(label, {left, top}, kQuietInk, kPaper, 3.0 * scene.sizes.unit_px);
    }
}

}  // namespace gloam::sheet
