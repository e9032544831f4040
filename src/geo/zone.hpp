#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "base/error.hpp"
#include "base/instant.hpp"

namespace gloam::geo {

/// Half-open span of instants [begin, end).
struct InstantSpan {
    Instant begin;
    Instant end;
};

/// An IANA time zone, from the system's tzdata.
class Zone {
  public:
    /// Looks the zone up by its exact IANA name; an unknown name is an error that suggests near ones.
    static Result<Zone> named(std::string_view iana_name);

    std::string name() const;
    /// UTC offset in force at `instant`, east positive.
    Duration offset_at(Instant instant) const;
    /// Civil date of `instant` in this zone.
    CivilDate date_of(Instant instant) const;
    /// The instants of a civil date here: 23 to 25 h with a clock change; empty date (skipped at the date
    /// line) is an error.
    Result<InstantSpan> span_of(CivilDate date) const;
    /// RFC 3339 with this zone's offset, rounded to the second.
    std::string to_rfc3339(Instant instant) const;
    /// Wall clock "06:38", rounded to the nearest minute.
    std::string clock(Instant instant) const;

  private:
    explicit Zone(const void* zone) : zone_(zone) {}
    const void*
        zone_;  ///< date::time_zone in the process-wide tz database; kept out of this header for compile time
};

}  // namespace gloam::geo
