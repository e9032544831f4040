#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "weather/band.hpp"
#include "weather/forecast.hpp"

namespace gloam::weather {

/// Base and top of a layer of which the forecast does not say the height, metres above mean sea level.
struct UsualHeights {
    double base_m;
    double top_m;
};
/// By band. Source: the layer defaults of the sky model (judgement): 1-2, 4-4.6 and 9-10 km.
inline constexpr std::array<UsualHeights, 3> kUsualHeights{{{1.0e3, 2.0e3}, {4.0e3, 4.6e3}, {9.0e3, 10.0e3}}};

/// How far the pressure surfaces of a day may lie from those of the standard atmosphere, metres, by band
/// (judgement).
inline constexpr std::array<double, 3> kOffStandard_m{100.0, 200.0, 500.0};

/// By which route the layers were found.
enum class LayerRoute {
    kCoverOnLevels,  ///< cover on pressure levels: heights known to about half a slab
    kTotalOnly,      ///< total cover alone: the layer is unknown
};

/// One layer of one grid, at one time: arrays by cell, row-major, all of the grid's size.
struct LayerField {
    std::vector<float> cover;   ///< fraction 0..1; NaN-free; 0 where the column is absent
    std::vector<float> base_m;  ///< above mean sea level; 0 where cover is 0
    std::vector<float> top_m;   ///< above mean sea level; 0 where cover is 0
    std::vector<float>
        base_slab_m;  ///< thickness of the slab that the base bounds: how well the base is known
};

/// The layers of one member at one valid time.
struct LayerStep {
    Instant valid;
    std::array<LayerField, 3> bands;    ///< indexed by Band; for kTotalOnly all three hold the total cover
    std::vector<std::uint8_t> present;  ///< 1 where each of the three bands has a value at one level at least
};

/// The layered cloud forecast of one member on one grid, steps in time order; one step at least.
struct LayeredMember {
    std::optional<int> member;
    std::vector<LayerStep> steps;
};

/// Layered cloud of all members, the deterministic run first, then by number; one member at least.
struct LayeredForecast {
    LayerRoute route = LayerRoute::kCoverOnLevels;
    Grid grid;
    bool heights_from_standard_atmosphere =
        false;  ///< at a step or more no geopotential heights were in the files
    std::vector<LayeredMember> members;
    std::vector<std::string> notes;  ///< what was missing or left out, in words for a person
};

/// Turns fields into layers.
///
/// A level stands for the slab between the pressures half-way to its neighbours (`slab_limits_pa`). Cover of
/// a band: the maximum over its levels. Base and top: the outer limits of the lowest and the highest slab
/// with at least half of that cover. Heights from geopotential heights of the same step, else from the US
/// standard atmosphere 1976: there a base is known to half a slab (150 to 400 m) and to kOffStandard_m.
///
/// Only instantaneous cover is used. Total, convective and boundary-layer cover are never added to cover on
/// levels; the total stands in, by route kTotalOnly, where no step has levels in all three bands. A step that
/// lacks some levels is used with what it has, unless a band is left without any.
///
/// Error if no cover can be used: kUnsupported if there are averages only, else kIncomplete.
Result<LayeredForecast> layers_of(const Forecast& forecast);

}  // namespace gloam::weather
