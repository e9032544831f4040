#include "weather/band.hpp"

namespace gloam::weather {
namespace {

constexpr double kLowAbove_pa = 642.0e2;
constexpr double kHighBelow_pa = 400.0e2;

}  // namespace

Band band_of(double pressure_pa) {
    if (pressure_pa > kLowAbove_pa) {
        return Band::kLow;
    }
    return pressure_pa < kHighBelow_pa ? Band::kHigh : Band::kMiddle;
}

std::string_view name_of(Band band) {
    static constexpr std::array<std::string_view, 3> kNames{"low", "middle", "high"};
    return kNames[index_of(band)];
}

}  // namespace gloam::weather
