#pragma once

#include <cmath>
#include <compare>

#include "base/angle.hpp"
#include "base/check.hpp"

namespace gloam {

/// Altitude of a body's centre above the astronomical horizon as if there were no air. Negative below it.
struct TrueAltitude {
    Angle angle;
    constexpr auto operator<=>(const TrueAltitude&) const = default;
};

/// Altitude above the astronomical horizon as seen through the air, refraction included.
struct ApparentAltitude {
    Angle angle;
    constexpr auto operator<=>(const ApparentAltitude&) const = default;
};

/// Direction along the ground from true north, clockwise; always in [0, 360) degrees.
class Azimuth {
  public:
    constexpr Azimuth() = default;
    static Azimuth degrees(double value) {
        GLOAM_CHECK(std::isfinite(value));
        const double turn = std::fmod(value, 360.0) + 0.0;  // minus zero would print as "-0"
        const double positive = turn < 0.0 ? turn + 360.0 : turn;
        return Azimuth(positive >= 360.0 ? 0.0 : positive);
    }
    static Azimuth radians(double value) { return degrees(Angle::radians(value).degrees()); }

    constexpr double degrees() const { return degrees_; }
    constexpr double radians() const { return Angle::degrees(degrees_).radians(); }
    constexpr auto operator<=>(const Azimuth&) const = default;

    /// Signed turn from `from` to `to`, in (-180, 180] degrees, clockwise positive.
    friend Angle turn(Azimuth from, Azimuth to) {
        const double clockwise = Azimuth::degrees(to.degrees_ - from.degrees_).degrees();
        return Angle::degrees(clockwise > 180.0 ? clockwise - 360.0 : clockwise);
    }

  private:
    explicit constexpr Azimuth(double degrees) : degrees_(degrees) {}
    double degrees_ = 0.0;
};

/// Height above mean sea level, metres.
struct HeightMsl {
    double metres = 0.0;
    constexpr auto operator<=>(const HeightMsl&) const = default;
};

/// Height of the eye above the surface that forms its horizon (sea, plain), metres; sets the dip.
struct HeightAboveHorizon {
    double metres = 0.0;
    constexpr auto operator<=>(const HeightAboveHorizon&) const = default;
};

}  // namespace gloam
