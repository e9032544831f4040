#pragma once

#include <compare>
#include <numbers>

namespace gloam {

/// A plane angle. Stored in radians; build it by unit, read it by unit.
class Angle {
  public:
    constexpr Angle() = default;
    static constexpr Angle radians(double value) { return Angle(value); }
    static constexpr Angle degrees(double value) { return Angle(value * std::numbers::pi / 180.0); }
    static constexpr Angle arcminutes(double value) { return degrees(value / 60.0); }

    constexpr double radians() const { return radians_; }
    constexpr double degrees() const { return radians_ * 180.0 / std::numbers::pi; }
    constexpr double arcminutes() const { return degrees() * 60.0; }

    constexpr auto operator<=>(const Angle&) const = default;
    constexpr Angle operator-() const { return Angle(-radians_); }
    friend constexpr Angle operator+(Angle a, Angle b) { return Angle(a.radians_ + b.radians_); }
    friend constexpr Angle operator-(Angle a, Angle b) { return Angle(a.radians_ - b.radians_); }
    friend constexpr Angle operator*(Angle a, double factor) { return Angle(a.radians_ * factor); }

  private:
    explicit constexpr Angle(double radians) : radians_(radians) {}
    double radians_ = 0.0;
};

}  // namespace gloam
