#include "sheet/arch.hpp"

namespace gloam::sheet {
namespace {

constexpr double kEarthRadius_m = 6371.0e3;
constexpr double kMiddle_m = (Arch::kAhead_m - Arch::kBehind_m) / 2.0;
constexpr double kHalf_m = (Arch::kAhead_m + Arch::kBehind_m) / 2.0;

constexpr double drop_m(double along_m) {
    return (along_m - kMiddle_m) * (along_m - kMiddle_m) / (2.0 * kEarthRadius_m);
}

}  // namespace

Arch::Arch(const Box& box)
    : box_(box), across_(box.width / (2.0 * kHalf_m)), up_(box.height / (kTop_m + drop_m(kAhead_m))) {}

Point Arch::at(double along_m, double height_m) const {
    return {box_.left + (along_m + kBehind_m) * across_,
            box_.top + (kTop_m - height_m + drop_m(along_m)) * up_};
}

std::vector<Point> Arch::line_at(double height_m) const {
    constexpr int kPieces = 58;
    std::vector<Point> line;
    for (int i = 0; i <= kPieces; ++i) {
        line.push_back(at(2.0 * kHalf_m * i / kPieces - kBehind_m, height_m));
    }
    return line;
}

}  // namespace gloam::sheet
