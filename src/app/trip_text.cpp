#include "app/trip_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace gloam::app {
namespace {

std::string counted(std::size_t count, std::string_view one) {
    return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

std::string days(std::optional<CivilDate> start, std::optional<CivilDate> end) {
    const auto day = [](std::optional<CivilDate> date) { return date ? gloam::to_text(*date) : "?"; };
    return start || end ? fmt::format("{} to {}", day(start), day(end)) : "no days";
}

/// "drive 30 min, walk 1.2 km with 60 m of climb".
std::string way(const std::vector<trip::AccessLeg>& legs) {
    std::vector<std::string> parts;
    for (const trip::AccessLeg& leg : legs) {
        std::string part = leg.kind == trip::LegKind::kDrive ? "drive" : "walk";
        if (leg.minutes) {
            part += fmt::format(" {:.0f} min", *leg.minutes);
        } else if (leg.distance_m) {
            part += fmt::format(" {:.1f} km", *leg.distance_m / 1e3);
        }
        if (leg.climb_m) {
            part += fmt::format(" with {:.0f} m of climb", *leg.climb_m);
        }
        parts.push_back(std::move(part));
    }
    return parts.empty() ? "way not told" : fmt::format("{}", fmt::join(parts, ", "));
}

std::string place_lines(const trip::Place& place) {
    std::string text = fmt::format("  {}, {}: {}, {}\n", place.name, geo::to_text(place.at),
                                   counted(place.stands.size(), "stand"), way(place.access));
    for (const trip::DatedNote& note : place.notes) {
        text += fmt::format("    note of {}: {}\n", gloam::to_text(note.date), note.text);
    }
    return text;
}

}  // namespace

std::string to_text(const trip::Trip& trip) {
    std::string text = fmt::format("{}, {}, {}\n", trip.name, days(trip.start, trip.end),
                                   trip.zone.value_or("zone not told"));
    if (trip.base) {
        text += fmt::format("  base: {}, {}\n", trip.base->name, geo::to_text(trip.base->at));
    }
    if (trip.group.size) {
        text += fmt::format("  group of {}\n", *trip.group.size);
    }
    if (!trip.group.guests.empty()) {
        text +=
            fmt::format("  {} by name, deleted after the trip\n", counted(trip.group.guests.size(), "guest"));
    }
    for (const trip::Place& place : trip.places) {
        text += place_lines(place);
    }
    return text;
}

std::string to_text(const std::vector<journal::TripLine>& trips) {
    std::string text;
    for (const journal::TripLine& trip : trips) {
        text += fmt::format("{}, {}: {}, {}{}\n", trip.name, days(trip.start, trip.end),
                            counted(static_cast<std::size_t>(trip.places), "place"),
                            counted(static_cast<std::size_t>(trip.calls), "call"),
                            trip.forgotten ? ", guests forgotten" : "");
    }
    return trips.empty() ? "no trips\n" : text;
}

std::string overlap_text(const std::vector<std::string>& others) {
    return others.empty() ? ""
                          : fmt::format("It shares days with {}: name the trip in every command.\n",
                                        fmt::join(others, ", "));
}

std::string to_text(const trip::GpxMerge& merge, const trip::Gpx& gpx) {
    std::string text = fmt::format(
        "{} new, {} moved; {} new, {} moved; {}\n", counted(merge.places_new, "place"), merge.places_moved,
        counted(merge.stands_new, "stand"), merge.stands_moved, counted(merge.walks, "walk"));
    if (merge.lines_unused > 0) {
        text += fmt::format("{} not used: give --place to make the way out to it a walk.\n",
                            counted(merge.lines_unused, "track"));
    }
    if (gpx.refused > 0) {
        text += fmt::format("{} left out: no coordinates.\n", counted(gpx.refused, "point"));
    }
    return text;
}

}  // namespace gloam::app
