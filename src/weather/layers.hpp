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

/// Half-width of what is not known of the height of a layer that has its usual heights, metres (judgement);
/// to it comes what a day may be off (kOffStandard_m), lest the layer be better known than a level would be.
inline constexpr double kUnknownSpread_m = 700.0;

/// By which route the layers were found, best first.
enum class LayerRoute {
    kCoverOnLevels,     ///< cover on pressure levels: heights known to about half a slab
    kCoverByLayer,      ///< cover of low, middle and high cloud
    kHumidityOnLevels,  ///< cover worked out from humidity on pressure levels
    kAveragedLayers,    ///< averages over hours of low, middle and high cloud
    kTotalOnly,         ///< total cover alone, or its averages: the layer is unknown
};

/// One layer of one grid, at one time: arrays by cell, row-major, all of the grid's size.
struct LayerField {
    std::vector<float> cover;   ///< fraction 0..1; NaN-free; 0 where the column is absent
    std::vector<float> base_m;  ///< above mean sea level; 0 where cover is 0
    std::vector<float> top_m;   ///< above mean sea level; 0 where cover is 0
    std::vector<float>
        base_slab_m;  ///< thickness of the slab that the base bounds: twice how well the base is known
};

/// The layers of one member at one time: an instant, or the mean over a span.
struct LayerStep {
    Instant from;  ///< equals `to` for an instant
    Instant to;
    std::array<LayerField, 3> bands;    ///< indexed by Band; for kTotalOnly all three hold the total cover
    std::vector<std::uint8_t> present;  ///< 1 where each of the three bands has a value at one level at least
};

/// Whether the step is a mean over a span. The steps of a forecast are all so, or none is.
inline bool is_average(const LayerStep& step) {
    return step.from < step.to;
}

/// The layered cloud forecast of one member on one grid, steps by time; one step at least.
struct LayeredMember {
    std::optional<int> member;
    std::vector<LayerStep> steps;
};

/// Layered cloud of all members, the deterministic run first, then by number; one member at least.
struct LayeredForecast {
    LayerRoute route = LayerRoute::kCoverOnLevels;
    Grid grid;
    bool heights_from_standard_atmosphere =
        false;  ///< at a step or more pressures had to be turned into heights without geopotential heights
    bool usual_heights = false;  ///< at a step or more the files do not say where a layer's base and top are
    std::vector<LayeredMember> members;
    std::vector<std::string> notes;  ///< what was missing or left out, in words for a person
};

/// Turns fields into layers, by the first of these routes by which any step can be had:
///  1. cover on pressure levels;
///  2. cover of low, middle and high cloud as the centre draws them;
///  3. humidity on pressure levels, turned into cover (`humidity_cover`);
///  4. averages of low, middle and high cloud;
///  5. total cover, else its averages.
/// The notes say what the other routes would have read. Convective and boundary-layer cover are never added.
///
/// On levels: a level stands for the slab between the pressures half-way to its neighbours
/// (`slab_limits_pa`). Cover of a band: the maximum over its levels. Base and top: the outer limits of the
/// lowest and the highest slab with at least half of that cover. By layer: base and top at the pressures that
/// the files give for them, else the band's usual heights. Pressures become heights by geopotential heights
/// of the same step, else by the US standard atmosphere 1976: there a base is known to half a slab (150 to
/// 400 m) and to kOffStandard_m.
///
/// A step that lacks some levels is used with what it has, unless a band is left without any. Averages that
/// start together are taken apart where that does not make too much of packing noise
/// (`take_off_earlier_parts`).
///
/// Error: kBadInput if two fields that should be the same differ (`fields_once`); if no cover can be used
/// kUnsupported where there are averages only, else kIncomplete.
Result<LayeredForecast> layers_of(const Forecast& forecast);

}  // namespace gloam::weather
