#include "sheet/sky_display.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::sheet {
namespace {

constexpr double kMeter_cd_m2 = 12.5 / 100.0;
/// As in colour strength (docs/sky.md, section 7).
constexpr double kWhiteOverMetered = 5.0;

/// Linear up to the knee, then slowly towards white, so that a bright
/// glow keeps its shape. The knee is that of colour strength (docs/sky.md, section 7).
double shoulder(double value) {
    constexpr double kKnee = 0.8;
    constexpr double kRoom = 0.2;
    const double over = (value - kKnee) / kRoom;
    return over <= 0.0 ? value : kKnee + kRoom * over / (1.0 + over);
}

/// Half-way between bending each channel, which turns bright orange yellow, and all by the brightest's
/// factor, which keeps it orange and leaves it flat. What is bent much bleaches.
sky::LinearRgb bent(const sky::LinearRgb& rgb) {
    constexpr double kBleach = 3.5;  // of white over it: bleached by half
    const double brightest = std::max({rgb[0], rgb[1], rgb[2]});
    const double top = shoulder(brightest);
    const double over = brightest - top;
    const double bleached = over / (over + kBleach);
    sky::LinearRgb result{};
    for (std::size_t i = 0; i < rgb.size(); ++i) {
        const double kept = brightest > 0.0 ? rgb[i] / brightest * top : 0.0;
        result[i] = std::lerp(0.5 * (shoulder(rgb[i]) + kept), top, bleached);
    }
    return result;
}

/// Towards the grey of its luminance, as far as it takes to leave no channel below 0.
sky::LinearRgb within_gamut(const sky::LinearRgb& rgb) {
    const double grey = sky::xyz_of(rgb).y;
    double kept = 1.0;
    for (const double channel : rgb) {
        if (channel < 0.0) {
            kept = std::min(kept, grey / (grey - channel));
        }
    }
    sky::LinearRgb inside{};
    for (std::size_t i = 0; i < rgb.size(); ++i) {
        inside[i] = std::max(0.0, grey + kept * (rgb[i] - grey));
    }
    return inside;
}

/// Source: IEC 61966-2-1:1999.
double encoded(double linear) {
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1.0 / 2.4) - 0.055;
}

}  // namespace

double luminance_of_ev(double ev100) {
    return kMeter_cd_m2 * std::exp2(ev100);
}

double ev_of_luminance(double cd_m2) {
    return std::log2(cd_m2 / kMeter_cd_m2);
}

DisplayColour displayed(const sky::Xyz& light, double ev100) {
    const double white_cd_m2 = kWhiteOverMetered * luminance_of_ev(ev100);
    DisplayColour colour = bent(within_gamut(sky::linear_rgb(light * (1.0 / white_cd_m2))));
    for (double& channel : colour) {
        channel = encoded(channel);
    }
    return colour;
}

}  // namespace gloam::sheet
