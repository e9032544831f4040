#pragma once

#include <variant>
#include <vector>

#include "astro/ephemeris.hpp"
#include "base/instant.hpp"
#include "base/kinds.hpp"
#include "geo/zone.hpp"

namespace gloam::astro {

/// The body passes the asked altitude.
struct Crossing {
    Instant instant;
    Azimuth azimuth;
    bool rising = false;
};
/// The body stays above the asked altitude all the time; its lowest point.
struct NeverBelow {
    TrueAltitude lowest;
    Instant when;
};
/// The body stays below the asked altitude all the time; its highest point.
struct NeverAbove {
    TrueAltitude highest;
    Instant when;
};
using AltitudeOutcome = std::variant<Crossing, NeverBelow, NeverAbove>;

/// All passages of the body's centre through `altitude` in [begin, end), in time order.
std::vector<Crossing> crossings(Body body, const Observer& observer, geo::InstantSpan span,
                                TrueAltitude altitude);

enum class EventKind { kDawn, kDusk };

/// One dawn or one dusk of a civil date: from solar midnight to the solar noon that lies in the date, or from
/// that noon to the next solar midnight. Sun altitude is monotone in it (to within the sun's change of
/// declination).
struct HalfDay {
    EventKind kind = EventKind::kDawn;
    geo::InstantSpan span;  ///< midnight..noon, or noon..midnight
    TrueAltitude lowest;    ///< at the midnight end
    TrueAltitude highest;   ///< at the noon end
};
Result<HalfDay> half_day_of(const Observer& observer, const geo::Zone& zone, CivilDate date, EventKind kind);

/// When the sun's centre passes `altitude` in the half day, or why it does not.
AltitudeOutcome sun_crossing(const Observer& observer, const HalfDay& half_day, TrueAltitude altitude);

/// True altitude of the sun's centre at standard sunrise and sunset, -50' (34' refraction, 16' semidiameter).
TrueAltitude standard_rise_altitude();

}  // namespace gloam::astro
