#include "astro/ephemeris.hpp"

#include "astro/geocentric.hpp"
#include "astro/station.hpp"

namespace gloam::astro {

BodyPosition position_of(Body body, const Observer& observer, Instant instant) {
    return Station(observer).look_at(body, to_earth_frame(geocentric_place(body, instant), instant));
}

}  // namespace gloam::astro
