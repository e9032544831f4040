#pragma once

#include "base/angle.hpp"
#include "base/error.hpp"

namespace gloam::sheet {

/// A direction as the eye sees it: azimuth from the sun's, right positive, elevation above the level.
struct SkyDirection {
    double azimuth_rad = 0.0;
    double elevation_rad = 0.0;
};

/// Which part of the sky a picture shows, and where on it a direction lies.
class SkyView {
  public:
    static constexpr int kLeastWidth_px = 64;
    static constexpr int kMostWidth_px = 8000;

    /// The whole circle and 90 deg upwards from 15 below the level, the sun's azimuth in the middle; degrees
    /// are squares. Error (kBadInput): a width outside the limits.
    static Result<SkyView> strip(int width_px);
    /// What a lens of `focal_mm` draws on a frame of 36 x 24 mm, tilted so that the level lies a third up.
    /// `towards`: of the frame's middle, from the sun's azimuth. Errors (kBadInput): no width or no focal
    /// length (8 to 800 mm) that a picture could have.
    static Result<SkyView> lens(double focal_mm, Angle towards, int width_px);

    int width_px() const { return width_px_; }
    int height_px() const { return height_px_; }
    /// Of a point of the picture, right and down from its upper left corner.
    SkyDirection direction_at(double x_px, double y_px) const;
    /// How far apart pixels are, at most.
    double pixel_rad() const;

  private:
    SkyView() = default;

    int width_px_ = 0;
    int height_px_ = 0;
    double focal_px_ = 0.0;  ///< 0: a strip
    double towards_rad_ = 0.0;
    double tilt_rad_ = 0.0;  ///< of the lens, upwards
};

}  // namespace gloam::sheet
