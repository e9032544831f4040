#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/instant.hpp"

namespace date {
class time_zone;
}

namespace gloam::geo {

/// Half-open span of instants [begin, end).
struct InstantSpan {
    Instant begin;
    Instant end;
};

/// An IANA time zone, from the system's tzdata: an immutable handle, as cheap to copy as a pointer.
/// Limit: the transition tables end in 2037; from 2038 on the last standard time is kept.
class Zone {
  public:
    /// Looks the zone up by its exact IANA name; an unknown name is an error (kNotFound) that suggests near
    /// ones.
    static Result<Zone> named(std::string_view iana_name);

    /// IANA name, e.g. "Europe/Oslo".
    std::string name() const;
    /// UTC offset in force at `instant`, east positive.
    Duration offset_at(Instant instant) const;
    /// Civil date of `instant` in this zone.
    CivilDate date_of(Instant instant) const;
    /// The instants of a civil date here: 23 to 25 h with a clock change. It begins when the clock first
    /// reaches the date and ends where the next date begins, so consecutive dates leave no gap. A date that
    /// was skipped at the date line is an error (kNotFound).
    Result<InstantSpan> span_of(CivilDate date) const;
    /// The instants at which the clock shows `time_of_day` on `date`, in order: one as a rule, none if the
    /// clock was put forward over it, two if the clock was put back over it.
    std::vector<Instant> instants_of(CivilDate date, Duration time_of_day) const;
    /// RFC 3339 with this zone's offset, rounded to the second. The offsets of the years before standard time
    /// had seconds, which the format cannot hold: there the offset is rounded to the minute and the time
    /// follows it.
    std::string to_rfc3339(Instant instant) const;
    /// Wall clock "06:38", rounded to the nearest minute.
    std::string clock(Instant instant) const;

    friend bool operator==(Zone, Zone) = default;

  private:
    explicit Zone(const date::time_zone* zone) : zone_(zone) {}
    const date::time_zone*
        zone_;  ///< never null; owned by the process-wide tz database, which is never reloaded
};

}  // namespace gloam::geo
