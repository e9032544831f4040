#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>

#include "base/kinds.hpp"

namespace gloam::test {

/// The largest of many errors, and where it stood.
class Worst {
  public:
    void add(double error, const std::string& where) {
        ++count_;
        if (std::abs(error) >= value_) {
            value_ = std::abs(error);
            where_ = where;
        }
    }
    double value() const { return value_; }
    int count() const { return count_; }

    /// Puts the maximum into the test's record and on its output.
    void report(const std::string& what, const std::string& unit) const {
        ::testing::Test::RecordProperty(what, std::to_string(value_) + " " + unit);
        std::printf("%s: max error %.6f %s of %d (%s)\n", what.c_str(), value_, unit.c_str(), count_,
                    where_.c_str());
    }

  private:
    double value_ = 0.0;
    int count_ = 0;
    std::string where_;
};

/// Angle on the sphere between two directions, degrees, by the haversine.
inline double separation_deg(Azimuth azimuth_a, Angle altitude_a, Azimuth azimuth_b, Angle altitude_b) {
    const double up = std::sin((altitude_b - altitude_a).radians() / 2.0);
    const double round = std::sin(turn(azimuth_a, azimuth_b).radians() / 2.0);
    const double haversine =
        up * up + std::cos(altitude_a.radians()) * std::cos(altitude_b.radians()) * round * round;
    return 2.0 * std::asin(std::sqrt(haversine)) * 180.0 / std::numbers::pi;
}

}  // namespace gloam::test
