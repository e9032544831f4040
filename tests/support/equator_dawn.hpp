#pragma once

#include <functional>
#include <vector>

#include "outlook/event_outlook.hpp"
#include "support/synthetic_grib.hpp"

/// The simplest dawn there is: on the equator, at the equinox, on the meridian of Greenwich. The sun comes up
/// due east at about 06:10 UTC, the light path is the equator itself, and cover by distance up-sun is cover
/// by longitude. Everything here is synthetic.
namespace gloam::synthetic {

/// Tables of this build.
const sky::SkyTables& tables();

/// The dawn of 2025-03-20 at 0 N 0 E, seen from sea level.
outlook::EventRequest equator_dawn();

/// About when the sun's disc comes up, -0.8 deg.
Instant at_sunrise();

/// A step that serves (90 minutes each way) until the sun stands at -0.5 deg: the minutes that decide, in
/// half the time that all of them take. Minutes after 00:00 UTC.
inline constexpr int kTwilightOnly = 276;

/// Cloud on levels: the same on all of them, across the path and at all hours.
struct Deck {
    std::vector<double> levels_hpa;
    std::function<double(double along_km)> cover;  ///< fraction 0..1, along positive towards the sun
};

/// Usual levels of a deck: one slab that begins near 1 km, 4 km, 6 km, 9 km.
inline const std::vector<double> kAt1km{850};
inline const std::vector<double> kAt4km{600};
inline const std::vector<double> kAt6km{450};
inline const std::vector<double> kAt9km{300};

/// Covers by distance.
std::function<double(double)> everywhere(double cover);
std::function<double(double)> up_to_km(double edge_km, double cover);
std::function<double(double)> between_km(double from_km, double to_km, double cover);

/// What a synthetic file of this dawn holds.
struct DawnFile {
    std::vector<int> step_minutes{360};  ///< after 00:00 UTC
    std::vector<double> levels_hpa = kUsualLevels_hpa;
    int members = 1;       ///< more than one: an ensemble whose members all say the same
    int first_member = 1;  ///< number of the first of them
    bool heights =
        false;           ///< geopotential heights on all levels, those of a day 2 % warmer than the standard
    bool total = false;  ///< total cover beside the levels
};

/// Cover at a distance and a pressure, at a step.
using CoverAlong = std::function<double(double along_km, double pressure_pa, int step_minutes)>;
Bytes dawn_file(const DawnFile& about, const CoverAlong& cover);

/// Decks on top of each other; where they share a level, the greater cover.
Bytes dawn_file(const DawnFile& about, const std::vector<Deck>& decks);

/// Bytes to layers, layers to odds. What must not fail throws with its message.
weather::LayeredForecast layers_in(const Bytes& bytes);
/// What its members make of a forecast for the dawn.
outlook::EventOutlook outlook_of(const weather::LayeredForecast& forecast);
outlook::EventOutlook look_out_on(const Bytes& bytes);

}  // namespace gloam::synthetic
