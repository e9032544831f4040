#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace gloam::weather {

/// The three cloud layers. By pressure: low > 642 hPa, middle 642 to 400 hPa (both included), high < 400 hPa;
/// forecasts that name the layers themselves draw the lines a little elsewhere.
enum class Band { kLow, kMiddle, kHigh };
inline constexpr std::array kBands{Band::kLow, Band::kMiddle, Band::kHigh};

/// The band a pressure level belongs to.
Band band_of(double pressure_pa);

/// "low", "middle" or "high".
std::string_view name_of(Band band);

/// Place of a band in arrays by band.
constexpr std::size_t index_of(Band band) {
    return static_cast<std::size_t>(band);
}

}  // namespace gloam::weather
