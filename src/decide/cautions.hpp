#pragma once

#include <optional>
#include <string>
#include <vector>

#include "decide/caution.hpp"
#include "decide/caution_limits.hpp"
#include "decide/time_chain.hpp"
#include "geo/zone.hpp"
#include "trip/trip.hpp"
#include "weather/near_surface.hpp"
#include "weather/warning.hpp"

namespace gloam::decide {

/// The weather near the ground, and where it was read.
struct KnownWeather {
    weather::NearSurface near;
    std::string source;  ///< "NCEP GFS, run 2025-01-29 00:00 UTC"
    double age_h = 0.0;
};

/// The official warnings that were looked at.
struct KnownWarnings {
    std::vector<weather::Warning> warnings;
    std::string source;  ///< the file, or "typed by the leader"
    Instant as_of;       ///< when they were read or typed
};

/// Everything that cautions about one outing are made of.
struct OutingFacts {
    const trip::Trip* trip = nullptr;
    const trip::Place* place = nullptr;
    geo::Zone zone;
    CivilDate date;
    bool dawn = true;
    const TimeChain* chain = nullptr;
    std::optional<Instant> tide_closes;  ///< from the stand time on
    std::optional<Instant> tide_closed;  ///< in the hours before it
    std::optional<Instant> previous_return;
    std::optional<KnownWeather> weather;
    std::optional<KnownWarnings> warnings;
    Instant now;
    CautionLimits limits;
};

/// The cautions about an outing, in order (see put_in_order()). Odds play no part in them.
std::vector<Caution> cautions_of(const OutingFacts& facts);

/// What the air feels like in the wind, degrees Celsius: the wind chill of the Meteorological Service of
/// Canada and the US National Weather Service of 2001 (Osczevski and Bluestein 2005, Bull. Amer. Meteorol.
/// Soc. 86, 1453), for up to 10 C and wind from 1.34 m/s (4.8 km/h) at 10 m; else the temperature itself.
double feels_like_c(double temperature_c, double wind_m_s);

}  // namespace gloam::decide
