#pragma once

#include <array>
#include <optional>
#include <vector>

#include "weather/forecast.hpp"

namespace gloam::weather {

/// The three cloud layers by pressure: low > 642 hPa, middle 642 to 400 hPa, high < 400 hPa.
enum class Band { kLow, kMiddle, kHigh };
inline constexpr std::array kBands{Band::kLow, Band::kMiddle, Band::kHigh};

/// By which route the layers were found.
enum class LayerRoute {
    kCoverOnLevels,  ///< cover on pressure levels: heights known to about half a slab
    kTotalOnly,      ///< total cover alone: the layer is unknown
};

/// One layer of one grid, at one time.
struct LayerField {
    std::vector<float> cover;   ///< fraction 0..1, row-major; NaN-free
    std::vector<float> base_m;  ///< above mean sea level; 0 where cover is 0
    std::vector<float> top_m;
};

/// The layers of one member at one valid time.
struct LayerStep {
    Instant valid;
    std::array<LayerField, 3> bands;    ///< indexed by Band; for kTotalOnly all three hold the total cover
    std::vector<std::uint8_t> present;  ///< 1 where the column is complete
};

/// The layered cloud forecast of one member on one grid, steps in time order.
struct LayeredMember {
    std::optional<int> member;
    std::vector<LayerStep> steps;
};

/// Layered cloud of all members.
struct LayeredForecast {
    LayerRoute route = LayerRoute::kCoverOnLevels;
    RegularGrid grid;
    bool heights_from_standard_atmosphere = false;  ///< no geopotential heights in the files
    std::vector<LayeredMember> members;
    std::vector<std::string> notes;  ///< what was missing or left out, in words for a person
};

/// Turns fields into layers. Error if the forecast holds no cover that can be used.
Result<LayeredForecast> layers_of(const Forecast& forecast);

}  // namespace gloam::weather
