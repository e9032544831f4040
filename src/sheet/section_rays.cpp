#include "sheet/section_rays.hpp"

#include <algorithm>
#include <iterator>
#include <span>
#include <vector>

#include "sheet/canvas.hpp"
#include "sheet/cloud_strokes.hpp"
#include "sheet/palette.hpp"
#include "sheet/ray_cut.hpp"
#include "sheet/ray_light.hpp"

namespace gloam::sheet {
namespace {

using outlook::SectionLayer;
using outlook::SectionPoint;
using outlook::SectionRay;

constexpr double kBestWidth = 5.0;
constexpr double kOtherWidth = 2.2;
constexpr double kBellyWidth = 11.0;

double full_width(const SectionRay& ray, const SectionScene& scene) {
    return (is_best(ray, scene) ? kBestWidth : kOtherWidth) * scene.sizes.unit_px;
}

/// Fills between the lines `half_px` above and below the points.
void draw_ribbon(Drawing& drawing, std::span<const Point> points, std::span<const double> half_px,
                 Colour colour) {
    std::vector<Point> outline;
    for (std::size_t i = 0; i < points.size(); ++i) {
        outline.push_back({points[i].x, points[i].y - half_px[i]});
    }
    for (std::size_t i = points.size(); i-- > 0;) {
        outline.push_back({points[i].x, points[i].y + half_px[i]});
    }
    drawing.fill(outline, colour);
}

std::vector<Point> on_page(const std::vector<SectionPoint>& points, const Arch& arch) {
    std::vector<Point> result;
    std::transform(points.begin(), points.end(), std::back_inserter(result),
                   [&](const SectionPoint& p) { return arch.at(p); });
    return result;
}

void draw_light(Drawing& drawing, const SectionRay& ray, double from_m, const SectionScene& scene) {
    const auto points = cut(ray, from_m, Arch::kAhead_m);
    std::vector<double> half_px;
    for (const SectionPoint& p : points) {
        half_px.push_back(light_left(ray, p.along_m) * full_width(ray, scene) / 2.0);
    }
    draw_ribbon(drawing, on_page(points, scene.arch), half_px, kSunlight);
}

void draw_no_light(Drawing& drawing, const SectionRay& ray, double to_m, const SectionScene& scene) {
    drawing.polyline(on_page(cut(ray, 0.0, to_m), scene.arch),
                     {kNoLight, 1.3 * scene.sizes.unit_px, 5.0 * scene.sizes.unit_px});
}

/// A bar across a ray where most of its light is gone.
void draw_stop(Drawing& drawing, const SectionRay& ray, double along_m, const SectionScene& scene) {
    if (along_m > ray.points.back().along_m) {
        return;
    }
    const Point at = scene.arch.at(along_m, height_at(ray, along_m));
    const double half = (is_best(ray, scene) ? 10.0 : 6.0) * scene.sizes.unit_px;
    const Stroke bar{{at.x, at.y - half}, {at.x, at.y + half}};
    drawing.strokes({&bar, 1}, {kInk, 2.2 * scene.sizes.unit_px});
}

/// Cloud on a ray's way, the darker the more light it takes.
void draw_meetings(Drawing& drawing, const SectionRay& ray, const SectionScene& scene) {
    for (const outlook::SectionMeeting& meeting : ray.meetings) {
        Colour colour = tone_of(meeting.band);
        colour.alpha = 0.6 * (1.0 - meeting.free);
        drawing.polyline(on_page(cut(ray, meeting.from_m, meeting.to_m), scene.arch),
                         {colour, full_width(ray, scene) + 4.0 * scene.sizes.unit_px});
    }
}

/// The lit underside of the cloud overhead: as thick as light times cover, fading away from overhead, where
/// the ray says nothing any more.
void draw_belly(Drawing& drawing, const SectionRay& ray, const SectionScene& scene) {
    const SectionLayer* canvas = canvas_of(scene.section, ray);
    if (canvas == nullptr) {
        return;
    }
    const double light = light_left(ray, 0.0);
    std::vector<Point> points;
    std::vector<double> half_px;
    constexpr int kSteps = 24;
    for (int i = 0; i <= kSteps; ++i) {
        const double side = 2.0 * i / kSteps - 1.0;
        const double along_m = side * kOverhead_m;
        const double fade = 1.0 - side * side;
        points.push_back(scene.arch.at(along_m, canvas->base_m));
        half_px.push_back(light * cover_at(*canvas, along_m) * fade * kBellyWidth * scene.sizes.unit_px /
                          2.0);
    }
    draw_ribbon(drawing, points, half_px, kSunlight);
}

void draw_ray(Drawing& drawing, const SectionRay& ray, const SectionScene& scene) {
    if (!ray.lit) {
        draw_no_light(drawing, ray, Arch::kAhead_m, scene);
        return;
    }
    draw_meetings(drawing, ray, scene);
    const auto stop = stop_of(ray);
    draw_light(drawing, ray, stop ? stop->along_m : 0.0, scene);
    if (stop) {
        draw_no_light(drawing, ray, stop->along_m, scene);
        draw_stop(drawing, ray, stop->along_m, scene);
    } else if (is_best(ray, scene)) {
        draw_belly(drawing, ray, scene);
    }
}

}  // namespace

void draw_rays(Drawing& drawing, const SectionScene& scene) {
    std::vector<const SectionRay*> rays;
    for (const SectionRay& ray : scene.section.rays) {
        if (ray.points.size() > 1) {
            rays.push_back(&ray);
        }
    }
    std::stable_partition(rays.begin(), rays.end(),
                          [&](const SectionRay* ray) { return !is_best(*ray, scene); });
    for (const SectionRay* ray : rays) {
        draw_ray(drawing, *ray, scene);
    }
}

}  // namespace gloam::sheet
