#include "sheet/cloud_strokes.hpp"

#include <algorithm>
#include <cmath>

#include "geo/light_path_grid.hpp"

namespace gloam::sheet {
namespace {

using Grid = geo::LightPathGrid;

constexpr double kLength = 7.5;
constexpr double kPitch = 8.0;
constexpr double kRowPitch = 2.5;
constexpr double kThickness = 1.6;

double fraction(double value) {
    return value - std::floor(value);
}

/// Thresholds that fill 0..1 evenly in every neighbourhood. Source: the plane's R2 sequence, steps 1/g and
/// 1/g^2 with g^3 = g + 1 (Roberts 2018, The unreasonable effectiveness of quasirandom sequences).
double threshold(int row, int column) {
    return fraction(0.5 + 0.7548776662 * column + 0.5698402910 * row);
}

/// Rows are shifted against each other, so that no columns show.
double shift(int row) {
    return fraction(0.6180339887 * row);
}

}  // namespace

double cover_at(const outlook::SectionLayer& layer, double along_m) {
    const double place = (along_m - Grid::kFirst_m) / Grid::kStep_m;
    if (!(place >= 0.0) || place >= static_cast<double>(layer.cover.size()) - 1.0) {
        return 0.0;
    }
    const auto before = static_cast<std::size_t>(place);
    return std::lerp(layer.cover[before], layer.cover[before + 1], fraction(place));
}

std::vector<Stroke> cloud_strokes(const outlook::SectionLayer& layer, const Arch& arch, double unit_px) {
    const double pitch_m = kPitch * unit_px / arch.px_per_m();
    const double half_m = kLength * unit_px / arch.px_per_m() / 2.0;
    const double top_m = std::min(layer.top_m, Arch::kTop_m);
    if (layer.base_m > top_m) {
        return {};
    }
    const double thickness_px = (top_m - layer.base_m) * arch.px_per_height_m();
    const int rows = std::max(1, static_cast<int>(std::lround(thickness_px / (kRowPitch * unit_px))));
    const int columns = static_cast<int>((Arch::kAhead_m + Arch::kBehind_m) / pitch_m);
    std::vector<Stroke> strokes;
    for (int row = 0; row < rows; ++row) {
        const double height_m = std::lerp(layer.base_m, top_m, (row + 0.5) / rows);
        for (int column = 0; column < columns; ++column) {
            const double along_m = (column + shift(row)) * pitch_m - Arch::kBehind_m;
            if (along_m >= half_m - Arch::kBehind_m && cover_at(layer, along_m) > threshold(row, column)) {
                strokes.push_back({arch.at(along_m - half_m, height_m), arch.at(along_m + half_m, height_m)});
            }
        }
    }
    return strokes;
}

double stroke_width(double unit_px) {
    return kThickness * unit_px;
}

}  // namespace gloam::sheet
