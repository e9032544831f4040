#include "astro/crossing.hpp"

#include <algorithm>

#include "astro/monotone.hpp"
#include "astro/track.hpp"

namespace gloam::astro {
namespace {

enum class Point { kCentre, kUpperLimb };

Angle altitude_of(Point point, const BodyPosition& position) {
    return point == Point::kCentre ? position.altitude.angle
                                   : position.altitude.angle + position.semidiameter;
}

/// A point of a body as one observer sees it over a span.
class View {
  public:
    View(Body body, Point point, const Observer& observer, geo::InstantSpan span)
        : track_(body, {span.begin - kKnotMargin, span.end + kKnotMargin}),
          point_(point),
          station_(observer) {}

    BodyPosition at(Instant instant) const { return track_.seen_from(station_, instant); }

    /// Radians that the point stands above `altitude`, over time.
    Curve above(TrueAltitude altitude) const {
        return [this, altitude](Instant instant) {
            return (altitude_of(point_, at(instant)) - altitude.angle).radians();
        };
    }

  private:
    Track track_;
    Point point_;
    Station station_;
};

std::vector<Crossing> passages(const View& view, const std::vector<Instant>& knots, const Curve& above,
                               geo::InstantSpan span) {
    std::vector<Crossing> found;
    bool was_above = above(knots.front()) >= 0.0;
    for (std::size_t i = 1; i < knots.size(); ++i) {
        const bool is_above = above(knots[i]) >= 0.0;
        if (is_above != was_above) {
            const Instant instant = passage(above, knots[i - 1], knots[i]);
            if (instant >= span.begin && instant < span.end) {
                found.push_back({instant, view.at(instant).azimuth, is_above});
            }
        }
        was_above = is_above;
    }
    return found;
}

std::vector<Crossing> crossings_of(Body body, Point point, const Observer& observer, geo::InstantSpan span,
                                   TrueAltitude altitude) {
    if (span.begin >= span.end) {
        return {};
    }
    const View view(body, point, observer, span);
    const Curve above = view.above(altitude);
    return passages(view, monotone_knots(above, span), above, span);
}

/// The knots inside the span and its two ends: the extremes lie among them.
std::vector<Instant> extreme_candidates(const std::vector<Instant>& knots, geo::InstantSpan span) {
    std::vector<Instant> candidates = {span.begin, span.end};
    std::copy_if(knots.begin(), knots.end(), std::back_inserter(candidates),
                 [&](Instant knot) { return knot > span.begin && knot < span.end; });
    return candidates;
}

AltitudeOutcome never(const View& view, const std::vector<Instant>& candidates, bool stays_above) {
    const auto lower = [&](Instant a, Instant b) { return view.at(a).altitude < view.at(b).altitude; };
    if (stays_above) {
        const Instant when = *std::min_element(candidates.begin(), candidates.end(), lower);
        return NeverBelow{view.at(when).altitude, when};
    }
    const Instant when = *std::max_element(candidates.begin(), candidates.end(), lower);
    return NeverAbove{view.at(when).altitude, when};
}

AltitudeOutcome outcome_of(const View& view, const std::vector<Instant>& knots, const HalfDay& half_day,
                           TrueAltitude altitude) {
    const Curve above = view.above(altitude);
    const auto found = passages(view, knots, above, half_day.span);
    if (found.empty()) {
        return never(view, extreme_candidates(knots, half_day.span), above(half_day.span.begin) >= 0.0);
    }
    const bool dawn = half_day.kind == EventKind::kDawn;
    const auto wanted =
        std::find_if(found.begin(), found.end(), [&](const Crossing& c) { return c.rising == dawn; });
    return wanted == found.end() ? found.front() : *wanted;
}

}  // namespace

std::vector<Crossing> crossings(Body body, const Observer& observer, geo::InstantSpan span,
                                TrueAltitude altitude) {
    return crossings_of(body, Point::kCentre, observer, span, altitude);
}

std::vector<Crossing> upper_limb_crossings(Body body, const Observer& observer, geo::InstantSpan span,
                                           TrueAltitude limb_altitude) {
    return crossings_of(body, Point::kUpperLimb, observer, span, limb_altitude);
}

AltitudeOutcome sun_crossing(const Observer& observer, const HalfDay& half_day, TrueAltitude altitude) {
    return sun_crossings(observer, half_day, std::span(&altitude, 1)).front();
}

std::vector<AltitudeOutcome> sun_crossings(const Observer& observer, const HalfDay& half_day,
                                           std::span<const TrueAltitude> altitudes) {
    const View view(Body::kSun, Point::kCentre, observer, half_day.span);
    // Where the sun turns does not depend on the altitude asked for.
    const auto knots = monotone_knots(view.above(TrueAltitude{}), half_day.span);
    std::vector<AltitudeOutcome> outcomes;
    for (const TrueAltitude altitude : altitudes) {
        outcomes.push_back(outcome_of(view, knots, half_day, altitude));
    }
    return outcomes;
}

TrueAltitude standard_rise_altitude() {
    return {Angle::arcminutes(-50.0)};
}

}  // namespace gloam::astro
