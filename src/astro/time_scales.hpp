#pragma once

#include "base/instant.hpp"

namespace gloam::astro {

/// A Julian date in two parts, so that their sum keeps its digits: midnight, and the part of the day gone
/// since.
struct JulianDate {
    double midnight = 0.0;
    double day_part = 0.0;
};

/// The instant as a Julian date of UT1, taken to be UTC: off by up to 0.9 s, 13.5" in hour angle.
JulianDate universal_time(Instant instant);

/// The instant as a Julian date of terrestrial time, TAI + 32.184 s. Leap seconds are those that ERFA knows;
/// after its last one (2017) the count is kept, before its first (1960) it is zero, which costs the moon 0.5"
/// a second.
JulianDate terrestrial_time(Instant instant);

}  // namespace gloam::astro
