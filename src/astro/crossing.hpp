#pragma once

#include <span>
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

/// All passages of the body's centre through `altitude` in [begin, end), in time order: each the first
/// millisecond on the new side, so that spans laid end to end find every passage once. A grazing pair more
/// than a second apart is found.
///
/// Accuracy: 30 s against the same definition, 3 min where the body moves almost along the horizon; the worst
/// found is 1.2 s (tests/reference/astro/rise_and_set.cpp). Cost: 0.4 ms for a day of the sun.
std::vector<Crossing> crossings(Body body, const Observer& observer, geo::InstantSpan span,
                                TrueAltitude altitude);

/// The same for the body's upper limb: moonrise by convention is the limb at -34'.
std::vector<Crossing> upper_limb_crossings(Body body, const Observer& observer, geo::InstantSpan span,
                                           TrueAltitude limb_altitude);

enum class EventKind { kDawn, kDusk };

/// One dawn or one dusk of a civil date: from solar midnight to the solar noon of the date, or from that noon
/// to the next solar midnight. Noon and midnight are the sun's passages of the meridian, which exist at every
/// latitude; at a pole the observer's longitude names the meridian. Sun altitude is monotone in a half day to
/// within the sun's change of declination. The half days of consecutive dates meet without gap or overlap.
struct HalfDay {
    EventKind kind = EventKind::kDawn;
    geo::InstantSpan span;  ///< midnight..noon, or noon..midnight
    TrueAltitude lowest;    ///< at the midnight end
    TrueAltitude highest;   ///< at the noon end
};

/// The half day of a civil date in a zone. Its noon is the one nearest the middle of the date: it lies in the
/// date wherever the zone is meant for the place. A date that the zone skipped is an error (kNotFound).
Result<HalfDay> half_day_of(const Observer& observer, const geo::Zone& zone, CivilDate date, EventKind kind);

/// When the sun's centre passes `altitude` in the half day, upwards at dawn and downwards at dusk, or why it
/// does not. Within half a degree of a pole the year outruns the day, and the only passage of a half day may
/// be in the other sense: `rising` tells.
AltitudeOutcome sun_crossing(const Observer& observer, const HalfDay& half_day, TrueAltitude altitude);
/// The same for many altitudes, in their order, at little more than the cost of one.
std::vector<AltitudeOutcome> sun_crossings(const Observer& observer, const HalfDay& half_day,
                                           std::span<const TrueAltitude> altitudes);

/// True altitude of the sun's centre at standard sunrise and sunset, -50' (34' refraction, 16' semidiameter).
TrueAltitude standard_rise_altitude();

}  // namespace gloam::astro
