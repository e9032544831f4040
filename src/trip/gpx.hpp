#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "trip/trip.hpp"

namespace gloam::trip {

/// A waypoint, or a named point of a route in a file without waypoints.
struct GpxPoint {
    std::string name;  ///< empty: none
    std::string type;  ///< empty: none; "place" and "stand" are ours
    geo::LatLon at;
    std::optional<HeightMsl> height;
};

/// A route, or a track with its segments one after the other (the gaps between them are not walked).
struct GpxLine {
    std::string name;  ///< empty: none
    std::size_t points = 0;
    double length_m = 0.0;            ///< along the ground
    std::optional<double> climb_m;    ///< absent if a point has no height
    std::optional<double> descent_m;  ///< absent if a point has no height
};

/// What a GPX file holds that a trip can use.
struct Gpx {
    std::vector<GpxPoint> points;
    std::vector<GpxLine> lines;  ///< of two points or more
    std::size_t refused = 0;     ///< points whose coordinates are no numbers or not on Earth
};

/// Reads GPX 1.1 or 1.0 and what devices write for it: any namespace or none, any order of elements, any
/// version word, UTF-8, UTF-16 or Latin-1. Entities that a file defines are not expanded. Heights of no place
/// on Earth are absent. `where` names the file in errors. Errors (kUnreadable): no XML, no GPX, or none of
/// its points has coordinates. Memory: up to eighteen times the text.
Result<Gpx> parse_gpx(std::string_view xml, std::string_view where);

/// What was made of a GPX file.
struct GpxMerge {
    std::size_t places_new = 0;
    std::size_t places_moved = 0;
    std::size_t stands_new = 0;
    std::size_t stands_moved = 0;
    std::size_t walks = 0;
    std::size_t lines_unused = 0;
};

/// Adds a GPX file to a trip. Points become places; those of type "stand" called "PLACE / STAND" become
/// stands. With `place` given, all become stands of that place and lines become walks to it. What bears a
/// known name is moved, not doubled; a point without a name is called "point 1" and so on. Errors: kNotFound,
/// no such place; kBadInput, a line that is no walk, or nothing
/// that a trip can use.
Result<GpxMerge> add_gpx(Trip& trip, const Gpx& gpx, const std::optional<std::string>& place);

/// The trip's places and their stands as waypoints of GPX 1.1: add_gpx() finds them all again.
std::string to_gpx(const Trip& trip);

}  // namespace gloam::trip
