#include "trip/gpx.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <pugixml.hpp>
#include <sstream>

#include "geo/geodesic.hpp"

namespace gloam::trip {
namespace {

std::string_view local_name(const pugi::xml_node& node) {
    const std::string_view name = node.name();
    const std::size_t colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

/// The first child of that name, whatever its namespace.
pugi::xml_node child(const pugi::xml_node& parent, std::string_view name) {
    return parent.find_child([&](const pugi::xml_node& node) { return local_name(node) == name; });
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kSpace = " \t\r\n";
    const std::size_t first = text.find_first_not_of(kSpace);
    return first == std::string_view::npos ? std::string_view()
                                           : text.substr(first, text.find_last_not_of(kSpace) + 1 - first);
}

std::optional<double> number(std::string_view text) {
    text = trimmed(text);
    text.remove_prefix(text.starts_with('+') ? 1 : 0);
    double value = 0.0;
    const auto [rest, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = error == std::errc() && rest == text.data() + text.size() && std::isfinite(value);
    return whole ? std::optional(value) : std::nullopt;
}

/// A line of UTF-8: what is no letter of it is left out, what breaks the line becomes a space.
std::string words(const pugi::xml_node& parent, std::string_view name) {
    std::string text(trimmed(child(parent, name).text().get()));
    text = pugi::as_utf8(pugi::as_wide(text));
    for (char& c : text) {
        const auto byte = static_cast<unsigned char>(c);
        c = byte < 0x20 || byte == 0x7f ? ' ' : c;
    }
    return text;
}

std::optional<geo::LatLon> position(const pugi::xml_node& point) {
    const auto lat_deg = number(point.attribute("lat").value());
    const auto lon_deg = number(point.attribute("lon").value());
    const auto at = lat_deg && lon_deg ? geo::make_lat_lon(*lat_deg, *lon_deg)
                                       : fail(ErrorKind::kBadInput, "no pair of numbers");
    return at ? std::optional(*at) : std::nullopt;
}

std::optional<HeightMsl> height(const pugi::xml_node& point) {
    constexpr double kLowest_m = -500.0;
    constexpr double kHighest_m = 9000.0;
    const auto metres = number(child(point, "ele").text().get());
    return metres && *metres >= kLowest_m && *metres <= kHighest_m ? std::optional(HeightMsl{*metres})
                                                                   : std::nullopt;
}

/// Adds up a line, point by point.
class Pacer {
  public:
    explicit Pacer(std::string name) { line_.name = std::move(name); }

    void start_segment() { last_.reset(); }

    void step(geo::LatLon at, std::optional<HeightMsl> height) {
        ++line_.points;
        if (last_) {
            line_.length_m += geo::separation(*last_, at).distance_m;
        }
        last_ = at;
        if (height && all_heights_) {
            rise_to(height->metres);
        } else {
            all_heights_ = false;
        }
    }

    /// To the metre: points are known no better.
    GpxLine line() && {
        line_.length_m = std::round(line_.length_m);
        if (all_heights_ && line_.points > 0) {
            line_.climb_m = std::round(climb_m_);
            line_.descent_m = std::round(descent_m_);
        }
        return std::move(line_);
    }

  private:
    /// Receivers' heights waver by some metres, which would add up to hills: a turn counts once it is of 10
    /// m. A starting rule, no source.
    void rise_to(double metres) {
        constexpr double kTurn_m = 10.0;
        if (!level_m_) {
            level_m_ = metres;
        }
        const double rise_m = metres - *level_m_;
        if (std::abs(rise_m) >= kTurn_m) {
            (rise_m > 0.0 ? climb_m_ : descent_m_) += std::abs(rise_m);
            level_m_ = metres;
        }
    }

    GpxLine line_;
    std::optional<geo::LatLon> last_;
    std::optional<double> level_m_;
    double climb_m_ = 0.0;
    double descent_m_ = 0.0;
    bool all_heights_ = true;
};

/// Paces the points of a segment or a route.
void pace(const pugi::xml_node& parent, std::string_view name, Pacer& pacer, Gpx& gpx) {
    pacer.start_segment();
    for (const pugi::xml_node& point : parent.children()) {
        if (local_name(point) != name) {
            continue;
        }
        if (const auto at = position(point)) {
            pacer.step(*at, height(point));
        } else {
            ++gpx.refused;
        }
    }
}

void keep(Pacer&& pacer, Gpx& gpx) {
    GpxLine line = std::move(pacer).line();
    if (line.points >= 2) {
        gpx.lines.push_back(std::move(line));
    }
}

void read_point(const pugi::xml_node& node, std::vector<GpxPoint>& points, Gpx& gpx) {
    if (const auto at = position(node)) {
        points.push_back({words(node, "name"), words(node, "type"), *at, height(node)});
    } else {
        ++gpx.refused;
    }
}

/// Paces a route and notes its named points.
void read_route(const pugi::xml_node& route, std::vector<GpxPoint>& named, Gpx& gpx) {
    Pacer pacer(words(route, "name"));
    pace(route, "rtept", pacer, gpx);
    keep(std::move(pacer), gpx);
    for (const pugi::xml_node& point : route.children()) {
        const bool usable = local_name(point) == "rtept" && position(point);
        if (usable && !words(point, "name").empty()) {
            read_point(point, named, gpx);
        }
    }
}

void read_track(const pugi::xml_node& track, Gpx& gpx) {
    Pacer pacer(words(track, "name"));
    for (const pugi::xml_node& segment : track.children()) {
        if (local_name(segment) == "trkseg") {
            pace(segment, "trkpt", pacer, gpx);
        }
    }
    keep(std::move(pacer), gpx);
}

Gpx read(const pugi::xml_node& root) {
    Gpx gpx;
    std::vector<GpxPoint> of_routes;
    for (const pugi::xml_node& node : root.children()) {
        const std::string_view name = local_name(node);
        if (name == "wpt") {
            read_point(node, gpx.points, gpx);
        } else if (name == "rte") {
            read_route(node, of_routes, gpx);
        } else if (name == "trk") {
            read_track(node, gpx);
        }
    }
    if (gpx.points.empty()) {
        gpx.points = std::move(of_routes);
    }
    return gpx;
}

void write_point(pugi::xml_node& root, const std::string& name, const char* type, geo::LatLon at,
                 std::optional<HeightMsl> height) {
    pugi::xml_node point = root.append_child("wpt");
    point.append_attribute("lat") = fmt::format("{}", at.lat_deg).c_str();
    point.append_attribute("lon") = fmt::format("{}", at.lon_deg).c_str();
    if (height) {
        point.append_child("ele").text() = fmt::format("{}", height->metres).c_str();
    }
    point.append_child("name").text() = name.c_str();
    point.append_child("type").text() = type;
}

}  // namespace

Result<Gpx> parse_gpx(std::string_view xml, std::string_view where) {
    pugi::xml_document document;
    const pugi::xml_parse_result parsed = document.load_buffer(xml.data(), xml.size());
    if (!parsed) {
        return fail(ErrorKind::kUnreadable,
                    fmt::format("no sound XML at byte {}: {}", parsed.offset, parsed.description()),
                    std::string(where), "export the file anew");
    }
    if (local_name(document.document_element()) != "gpx") {
        return fail(ErrorKind::kUnreadable, "the XML is no GPX: its root is not <gpx>", std::string(where),
                    "give a GPX file");
    }
    Gpx gpx = read(document.document_element());
    if (gpx.points.empty() && gpx.lines.empty() && gpx.refused > 0) {
        return fail(ErrorKind::kUnreadable, fmt::format("none of its {} points has coordinates", gpx.refused),
                    std::string(where), "points need lat and lon in decimal degrees");
    }
    return gpx;
}

std::string to_gpx(const Trip& trip) {
    pugi::xml_document document;
    pugi::xml_node declaration = document.append_child(pugi::node_declaration);
    declaration.append_attribute("version") = "1.0";
    declaration.append_attribute("encoding") = "UTF-8";
    pugi::xml_node root = document.append_child("gpx");
    root.append_attribute("version") = "1.1";
    root.append_attribute("creator") = "gloam";
    root.append_attribute("xmlns") = "http://www.topografix.com/GPX/1/1";
    root.append_child("metadata").append_child("name").text() = trip.name.c_str();
    for (const Place& place : trip.places) {
        write_point(root, place.name, "place", place.at, place.height);
        for (const Stand& stand : place.stands) {
            write_point(root, fmt::format("{} / {}", place.name, stand.name), "stand", stand.at,
                        stand.height);
        }
    }
    std::ostringstream text;
    document.save(text, "  ", pugi::format_indent, pugi::encoding_utf8);
    return text.str();
}

}  // namespace gloam::trip
