#include "sheet/canvas.hpp"

#include <algorithm>
#include <cmath>

#include "sheet/cloud_strokes.hpp"

namespace gloam::sheet {
namespace {

constexpr double kNear_m = 100.0;
constexpr double kHardlyAny = 0.1;

bool is_overhead(const outlook::SectionLayer& layer) {
    return cover_overhead(layer) > kHardlyAny;
}

}  // namespace

double cover_overhead(const outlook::SectionLayer& layer) {
    constexpr int kSteps = 24;
    double sum = 0.0;
    for (int i = 0; i <= kSteps; ++i) {
        sum += cover_at(layer, std::lerp(-kOverhead_m, kOverhead_m, static_cast<double>(i) / kSteps));
    }
    return sum / (kSteps + 1);
}

bool has_canvas(const outlook::Section& section) {
    return std::any_of(section.layers.begin(), section.layers.end(), [](const outlook::SectionLayer& layer) {
        return layer.band != weather::Band::kLow && is_overhead(layer);
    });
}

const outlook::SectionLayer* canvas_of(const outlook::Section& section, const outlook::SectionRay& ray) {
    for (const outlook::SectionLayer& layer : section.layers) {
        const double above_m = ray.points.empty() ? -1.0 : layer.base_m - ray.points.front().height_m;
        if (above_m >= 0.0 && above_m < kNear_m && is_overhead(layer)) {
            return &layer;
        }
    }
    return nullptr;
}

}  // namespace gloam::sheet
