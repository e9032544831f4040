#include "sheet/sky_view.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace gloam::sheet {
namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;
constexpr double kStripFoot_rad = -15.0 * kTurn / 360.0;

constexpr double kFrameWidth_mm = 36.0;
constexpr double kFrameHeight_mm = 24.0;
/// The level lies a third of the frame up, a sixth below its middle.
constexpr double kLevelBelowMiddle_mm = kFrameHeight_mm / 6.0;
constexpr double kLeastFocal_mm = 8.0;
constexpr double kMostFocal_mm = 800.0;

Result<void> check_width(int width_px) {
    if (width_px < SkyView::kLeastWidth_px || width_px > SkyView::kMostWidth_px) {
        return fail(ErrorKind::kBadInput,
                    fmt::format("{} pixels are no width for a picture of the sky", width_px), "--width",
                    fmt::format("give {} to {}", SkyView::kLeastWidth_px, SkyView::kMostWidth_px));
    }
    return {};
}

}  // namespace

Result<SkyView> SkyView::strip(int width_px) {
    return check_width(width_px).map([&] {
        SkyView view;
        view.width_px_ = width_px;
        view.height_px_ = width_px / 4;
        return view;
    });
}

Result<SkyView> SkyView::lens(double focal_mm, Angle towards, int width_px) {
    if (!(focal_mm >= kLeastFocal_mm && focal_mm <= kMostFocal_mm)) {
        return fail(ErrorKind::kBadInput, fmt::format("{} mm is no focal length", focal_mm), "--view",
                    fmt::format("give {} to {} mm, on a frame of 36 x 24 mm", kLeastFocal_mm, kMostFocal_mm));
    }
    return check_width(width_px).map([&] {
        SkyView view;
        view.width_px_ = width_px;
        view.height_px_ = static_cast<int>(std::lround(width_px * kFrameHeight_mm / kFrameWidth_mm));
        view.focal_px_ = focal_mm * width_px / kFrameWidth_mm;
        view.towards_rad_ = towards.radians();
        view.tilt_rad_ = std::atan(kLevelBelowMiddle_mm / focal_mm);
        return view;
    });
}

SkyDirection SkyView::direction_at(double x_px, double y_px) const {
    const double right = x_px - 0.5 * width_px_;
    if (focal_px_ == 0.0) {
        const double px_rad = kTurn / width_px_;
        return {right * px_rad, kStripFoot_rad + (height_px_ - y_px) * px_rad};
    }
    const double up = 0.5 * height_px_ - y_px;
    const double forward = focal_px_ * std::cos(tilt_rad_) - up * std::sin(tilt_rad_);
    const double upward = focal_px_ * std::sin(tilt_rad_) + up * std::cos(tilt_rad_);
    return {std::remainder(towards_rad_ + std::atan2(right, forward), kTurn),
            std::atan2(upward, std::hypot(right, forward))};
}

double SkyView::pixel_rad() const {
    return focal_px_ == 0.0 ? kTurn / width_px_ : 1.0 / focal_px_;
}

}  // namespace gloam::sheet
