#pragma once

#include <vector>

#include "outlook/section.hpp"
#include "sheet/shapes.hpp"

namespace gloam::sheet {

/// The box that the arch of a section fills, pixels.
struct Box {
    double left = 0.0;
    double top = 0.0;
    double width = 0.0;
    double height = 0.0;
};

/// The round Earth on the page: where a point of the light path lies in a box.
///
/// A height above the sphere is drawn above the ground's parabola, height - (along - middle)^2 / 2R,
/// stretched upwards. It differs from the picture that has the viewer on top by a shear, which keeps straight
/// lines straight: without refraction a light ray would be a straight line. The crest lies at the middle of
/// the light path, so that rays run nearly level from the sun at the right over the crest to the viewer's
/// cloud.
class Arch {
  public:
    static constexpr double kBehind_m = 80.0e3;  ///< behind the viewer
    static constexpr double kAhead_m = outlook::kSectionReach_m;
    static constexpr double kTop_m = outlook::kSectionHeight_m;

    explicit Arch(const Box& box);

    Point at(double along_m, double height_m) const;
    Point at(const outlook::SectionPoint& point) const { return at(point.along_m, point.height_m); }
    /// The line of one height over the whole arch, from left to right.
    std::vector<Point> line_at(double height_m) const;
    const Box& box() const { return box_; }
    double px_per_m() const { return across_; }
    double px_per_height_m() const { return up_; }
    /// How many times heights are stretched against distances.
    double stretch() const { return up_ / across_; }

  private:
    Box box_;
    double across_;
    double up_;
};

}  // namespace gloam::sheet
