#include "sky/ozone.hpp"

#include <cmath>

namespace gloam::sky {
namespace {

/// Coefficients of one hemisphere, by the letters of the paper.
struct Hemisphere {
    double a_du;
    double beta;
    double c_du;
    double f_days;
    double h;
    double i_deg;
};
constexpr Hemisphere kNorthEast{150.0, 1.28, 40.0, -30.0, 3.0, 20.0};
constexpr Hemisphere kNorthWest{150.0, 1.28, 40.0, -30.0, 3.0, 0.0};
constexpr Hemisphere kSouth{100.0, 1.5, 30.0, 152.625, 2.0, -75.0};

const Hemisphere& hemisphere_of(Angle latitude, Angle longitude) {
    if (latitude.degrees() < 0.0) {
        return kSouth;
    }
    return longitude.degrees() > 0.0 ? kNorthEast : kNorthWest;
}

double sine_of_degrees(double degrees) {
    return std::sin(Angle::degrees(degrees).radians());
}

}  // namespace

double usual_ozone_du(Angle latitude, Angle longitude, int day_of_year) {
    constexpr double kEquator_du = 235.0;
    constexpr double kG_du = 20.0;
    constexpr double kDegreesADay = 0.9865;
    const auto& [a_du, beta, c_du, f_days, h, i_deg] = hemisphere_of(latitude, longitude);
    const double share = sine_of_degrees(beta * latitude.degrees());
    return kEquator_du + (a_du + c_du * sine_of_degrees(kDegreesADay * (day_of_year + f_days)) +
                          kG_du * sine_of_degrees(h * (longitude.degrees() + i_deg))) *
                             share * share;
}

}  // namespace gloam::sky
