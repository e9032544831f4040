#include "sheet/ray_cut.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace gloam::sheet {

using outlook::SectionPoint;
using outlook::SectionRay;

double height_at(const SectionRay& ray, double along_m) {
    const auto next = std::find_if(ray.points.begin(), ray.points.end(),
                                   [=](const SectionPoint& p) { return p.along_m >= along_m; });
    if (next == ray.points.begin() || next == ray.points.end()) {
        return next == ray.points.end() ? ray.points.back().height_m : next->height_m;
    }
    const SectionPoint& before = *(next - 1);
    return std::lerp(before.height_m, next->height_m,
                     (along_m - before.along_m) / (next->along_m - before.along_m));
}

std::vector<SectionPoint> cut(const SectionRay& ray, double from_m, double to_m) {
    if (ray.points.empty()) {
        return {};
    }
    from_m = std::max(from_m, ray.points.front().along_m);
    to_m = std::min(to_m, ray.points.back().along_m);
    if (from_m >= to_m) {
        return {};
    }
    std::vector<SectionPoint> points{{from_m, height_at(ray, from_m)}};
    std::copy_if(ray.points.begin(), ray.points.end(), std::back_inserter(points),
                 [=](const SectionPoint& p) { return p.along_m > from_m && p.along_m < to_m; });
    points.push_back({to_m, height_at(ray, to_m)});
    return points;
}

}  // namespace gloam::sheet
