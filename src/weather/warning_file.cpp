#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <pugixml.hpp>
#include <set>

#include "weather/warning.hpp"

namespace gloam::weather {
namespace {

/// An element's name without its namespace prefix: feeds give the protocol one, single alerts do not.
std::string_view local_name(const pugi::xml_node& node) {
    const std::string_view name = node.name();
    const std::size_t colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

std::vector<pugi::xml_node> children(const pugi::xml_node& parent, std::string_view name) {
    std::vector<pugi::xml_node> found;
    for (const pugi::xml_node& child : parent.children()) {
        if (local_name(child) == name) {
            found.push_back(child);
        }
    }
    return found;
}

/// Text of the first child of that name, without white space round it; empty if there is none.
std::string text_of(const pugi::xml_node& parent, std::string_view name) {
    const auto found = children(parent, name);
    const std::string_view text = found.empty() ? "" : found.front().child_value();
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    const std::size_t last = text.find_last_not_of(" \t\r\n");
    return first == std::string_view::npos ? "" : std::string(text.substr(first, last - first + 1));
}

/// An error of a reader of parts, without the file.
using Trouble = std::string;
template <class T>
using Read = tl::expected<T, Trouble>;

/// The time in a child; absent if there is none.
Read<std::optional<Instant>> time_in(const pugi::xml_node& parent, std::string_view name) {
    const std::string text = text_of(parent, name);
    if (text.empty()) {
        return std::nullopt;
    }
    const auto instant = parse_rfc3339(text);
    return instant ? Read<std::optional<Instant>>(*instant)
                   : tl::unexpected(fmt::format("<{}>{}</{}> is no time", name, text, name));
}

std::vector<std::string_view> words_of(std::string_view text) {
    constexpr std::string_view kSpace = " \t\r\n";
    std::vector<std::string_view> words;
    for (std::size_t at = text.find_first_not_of(kSpace); at != std::string_view::npos;) {
        const std::size_t end = std::min(text.find_first_of(kSpace, at), text.size());
        words.push_back(text.substr(at, end - at));
        at = text.find_first_not_of(kSpace, end);
    }
    return words;
}

std::optional<double> number_in(std::string_view text) {
    double value = 0.0;
    const auto [stop, trouble] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = trouble == std::errc() && stop == text.data() + text.size() && std::isfinite(value);
    return whole ? std::optional(value) : std::nullopt;
}

/// "38.47,-120.14".
Read<geo::LatLon> point_in(std::string_view pair) {
    const std::size_t comma = pair.find(',');
    const auto lat_deg = number_in(pair.substr(0, comma));
    const auto lon_deg = comma == std::string_view::npos ? std::nullopt : number_in(pair.substr(comma + 1));
    const auto point = lat_deg && lon_deg ? geo::make_lat_lon(*lat_deg, *lon_deg)
                                          : fail(ErrorKind::kBadInput, "no pair of numbers");
    return point ? Read<geo::LatLon>(*point) : tl::unexpected(fmt::format("'{}' is no place", pair));
}

Read<std::vector<geo::LatLon>> ring_in(std::string_view text) {
    std::vector<geo::LatLon> ring;
    for (const std::string_view pair : words_of(text)) {
        const auto point = point_in(pair);
        if (!point) {
            return tl::unexpected(point.error());
        }
        ring.push_back(*point);
    }
    if (ring.size() < 4) {
        return tl::unexpected(fmt::format("a polygon of {} points is none", ring.size()));
    }
    return ring;
}

/// "32.9525,-115.5527 10": a place and a radius in kilometres.
Read<WarnedArea::Circle> circle_in(std::string_view text) {
    const auto words = words_of(text);
    const auto radius_km = words.size() == 2 ? number_in(words[1]) : std::nullopt;
    if (!radius_km || *radius_km < 0.0) {
        return tl::unexpected(fmt::format("'{}' is no circle", text));
    }
    return point_in(words[0]).map([&](geo::LatLon centre) {
        return WarnedArea::Circle{centre, *radius_km * 1000.0};
    });
}

Read<WarnedArea> area_of(const pugi::xml_node& node) {
    WarnedArea area;
    area.name = text_of(node, "areaDesc");
    for (const pugi::xml_node& polygon : children(node, "polygon")) {
        auto ring = ring_in(polygon.child_value());
        if (!ring) {
            return tl::unexpected(ring.error());
        }
        area.polygons.push_back(*std::move(ring));
    }
    for (const pugi::xml_node& child : children(node, "circle")) {
        const auto circle = circle_in(child.child_value());
        if (!circle) {
            return tl::unexpected(circle.error());
        }
        area.circles.push_back(*circle);
    }
    return area;
}

Read<Warning> warning_of(const pugi::xml_node& alert, const pugi::xml_node& info) {
    const auto sent = time_in(alert, "sent");
    const auto effective = time_in(info, "effective");
    const auto onset = time_in(info, "onset");
    const auto expires = time_in(info, "expires");
    for (const auto* time : {&sent, &effective, &onset, &expires}) {
        if (!*time) {
            return tl::unexpected(time->error());
        }
    }
    if (!*sent) {
        return tl::unexpected(Trouble("there is no <sent>"));
    }
    Warning warning;
    warning.issuer =
        text_of(info, "senderName").empty() ? text_of(alert, "sender") : text_of(info, "senderName");
    warning.event = text_of(info, "event");
    warning.severity = text_of(info, "severity");
    warning.headline = text_of(info, "headline");
    warning.description = text_of(info, "description");
    warning.instruction = text_of(info, "instruction");
    warning.sent = **sent;
    warning.onset = *onset ? *onset : *effective;
    warning.expires = *expires;
    for (const pugi::xml_node& node : children(info, "area")) {
        auto area = area_of(node);
        if (!area) {
            return tl::unexpected(area.error());
        }
        warning.areas.push_back(*std::move(area));
    }
    return warning;
}

/// The blocks of one language: English if there are any, else that of the first block. Without a language a
/// block is in English, as the protocol has it.
std::vector<pugi::xml_node> infos_of(const pugi::xml_node& alert) {
    auto infos = children(alert, "info");
    const auto language = [](const pugi::xml_node& info) {
        const std::string given = text_of(info, "language");
        return given.empty() ? std::string("en") : given.substr(0, 2);
    };
    if (infos.empty()) {
        return infos;
    }
    const bool english = std::ranges::any_of(infos, [&](const auto& info) { return language(info) == "en"; });
    const std::string kept = english ? "en" : language(infos.front());
    std::erase_if(infos, [&](const auto& info) { return language(info) != kept; });
    return infos;
}

/// How another alert refers to this one: sender, identifier and time sent.
std::string reference_to(const pugi::xml_node& alert) {
    return fmt::format("{},{},{}", text_of(alert, "sender"), text_of(alert, "identifier"),
                       text_of(alert, "sent"));
}

std::set<std::string> replaced_by(const std::vector<pugi::xml_node>& alerts) {
    std::set<std::string> replaced;
    for (const pugi::xml_node& alert : alerts) {
        const std::string kind = text_of(alert, "msgType");
        if (kind == "Update" || kind == "Cancel") {
            const std::string references = text_of(alert, "references");
            for (const std::string_view reference : words_of(references)) {
                replaced.emplace(reference);
            }
        }
    }
    return replaced;
}

bool is_in_force(const pugi::xml_node& alert) {
    const std::string kind = text_of(alert, "msgType");
    return text_of(alert, "status") == "Actual" && (kind == "Alert" || kind == "Update");
}

/// All alerts of a document, in a feed or alone.
struct AlertWalker : pugi::xml_tree_walker {
    std::vector<pugi::xml_node> alerts;
    bool for_each(pugi::xml_node& node) override {
        if (local_name(node) == "alert") {
            alerts.push_back(node);
        }
        return true;
    }
};

}  // namespace

Result<std::vector<Warning>> read_warnings(std::string_view xml, std::string_view name) {
    const std::string hint =
        "give the issuer's file in the Common Alerting Protocol 1.2, or type the warning";
    pugi::xml_document document;
    const auto parsed = document.load_buffer(xml.data(), xml.size());
    if (!parsed) {
        return fail(ErrorKind::kUnreadable, fmt::format("this is no sound XML: {}", parsed.description()),
                    fmt::format("{}, octet {}", name, parsed.offset), hint);
    }
    AlertWalker walker;
    document.traverse(walker);
    if (walker.alerts.empty()) {
        return fail(ErrorKind::kUnreadable, "there is no <alert> in it", std::string(name), hint);
    }
    const auto replaced = replaced_by(walker.alerts);
    std::vector<Warning> warnings;
    for (const pugi::xml_node& alert : walker.alerts) {
        if (!is_in_force(alert) || replaced.contains(reference_to(alert))) {
            continue;
        }
        for (const pugi::xml_node& info : infos_of(alert)) {
            auto warning = warning_of(alert, info);
            if (!warning) {
                return fail(ErrorKind::kUnreadable, warning.error(),
                            fmt::format("{}, alert {}", name, text_of(alert, "identifier")), hint);
            }
            warnings.push_back(*std::move(warning));
        }
    }
    return warnings;
}

}  // namespace gloam::weather
