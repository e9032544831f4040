#include "sheet/type_sizes.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::sheet {
namespace {

constexpr double kPhone_px = 390.0;
constexpr double kLaptop_px = 1200.0;
constexpr double kNarrow_px = 700.0;

/// In quarters of a pixel: the text library keeps every size it has met, so there should be few.
double quarters(double size_px) {
    return std::round(4.0 * size_px) / 4.0;
}

}  // namespace

TypeSizes type_sizes(double width_px) {
    const double way = std::clamp((width_px - kPhone_px) / (kLaptop_px - kPhone_px), 0.0, 1.0);
    const double beyond = std::max(1.0, width_px / kLaptop_px);
    const auto size = [=](double phone, double laptop) { return beyond * std::lerp(phone, laptop, way); };
    return {quarters(size(14.0, 20.0)), quarters(size(11.5, 15.0)), quarters(size(10.5, 12.5)),
            size(0.6, 1.0), width_px < kNarrow_px};
}

}  // namespace gloam::sheet
