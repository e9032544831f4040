#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

#include "trip/trip_toml.hpp"
#include "trip/words.hpp"

namespace gloam::trip {
namespace {

/// A basic string of TOML.
std::string literal(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            out += '\\';
            out += c;
        } else if (byte < 0x20 || byte == 0x7f) {
            out += fmt::format("\\u{:04X}", byte);
        } else {
            out += c;
        }
    }
    return out + '"';
}

std::string literal(const std::string& text) {
    return literal(std::string_view(text));
}
std::string literal(double number) {
    return fmt::format("{}", number);
}
std::string literal(int number) {
    return fmt::format("{}", number);
}
std::string literal(bool yes) {
    return yes ? "true" : "false";
}
std::string literal(CivilDate date) {
    return gloam::to_text(date);
}
std::string literal(ClockTime time) {
    return literal(to_text(time));
}
std::string literal(HeightMsl height) {
    return literal(height.metres);
}
std::string literal(Azimuth azimuth) {
    return literal(azimuth.degrees());
}

/// Lines of a TOML file.
class Lines {
  public:
    /// "[path]" or "[[path]]", after an empty line; left out if nothing follows it.
    void head(std::string_view brackets) {
        head_ = fmt::format("{}{}\n", text_.empty() ? "" : "\n", brackets);
    }

    /// "key = value", with a comment if there is one.
    void raw(std::string_view key, std::string_view value, std::string_view comment = {}) {
        text_ += std::exchange(head_, {});
        text_ += fmt::format("{} = {}{}{}\n", key, value, comment.empty() ? "" : "  # ", comment);
    }

    template <class T>
    void put(std::string_view key, const T& value, std::string_view comment = {}) {
        raw(key, literal(value), comment);
    }

    template <class T>
    void put(std::string_view key, const std::optional<T>& value, std::string_view comment = {}) {
        if (value) {
            put(key, *value, comment);
        }
    }

    /// A yes; no is left out.
    void put_yes(std::string_view key, bool yes, std::string_view comment) {
        if (yes) {
            put(key, true, comment);
        }
    }

    /// A list, left out if it is empty.
    void put_list(std::string_view key, const std::vector<std::string>& values,
                  std::string_view comment = {}) {
        if (!values.empty()) {
            raw(key, fmt::format("[{}]", fmt::join(values, ", ")), comment);
        }
    }

    void put_position(geo::LatLon at) {
        put("lat", at.lat_deg, "degrees, north positive");
        put("lon", at.lon_deg, "degrees, east positive");
    }

    std::string text() && { return std::move(text_); }

  private:
    std::string head_;
    std::string text_;
};

void put_note(Lines& lines, const DatedNote& note) {
    lines.put("text", note.text);
    lines.put("date", note.date);
}

void put_stand(Lines& lines, const Stand& stand) {
    lines.put("name", stand.name);
    lines.put_position(stand.at);
    lines.put("height_m", stand.height, "above the sea");
    lines.put("view_deg", stand.view, "from true north, clockwise");
    lines.put("tripods", stand.tripods, "how many it holds");
}

void put_subject(Lines& lines, const Subject& subject) {
    lines.put("name", subject.name);
    lines.put_position(subject.at);
    lines.put("base_height_m", subject.base, "above the sea");
    lines.put("top_height_m", subject.top, "above the sea");
    lines.put("width_m", subject.width_m);
}

void put_leg(Lines& lines, const AccessLeg& leg) {
    lines.put("kind", word_of(leg.kind));
    lines.put("name", leg.name);
    lines.put("minutes", leg.minutes, "by day");
    lines.put("distance_m", leg.distance_m);
    lines.put("climb_m", leg.climb_m, "on the way out");
    lines.put("descent_m", leg.descent_m, "on the way out");
    lines.put_yes("never_in_the_dark", leg.never_in_the_dark, "a hazard of it is marked so");
    lines.put("last_walked", leg.last_walked, "by day, by the leader");
}

void put_gate(Lines& lines, const Gate& gate) {
    lines.put("name", gate.name);
    lines.put("opens", gate.opens, "local time");
    lines.put("closes", gate.closes, "local time");
}

void put_sheltered(Lines& lines, const std::vector<WindSector>& sectors) {
    std::vector<std::string> all;
    for (const WindSector& sector : sectors) {
        all.push_back(
            fmt::format("{{ from_deg = {}, to_deg = {} }}", sector.from.degrees(), sector.to.degrees()));
    }
    lines.put_list("sheltered", all, "where the wind comes from, clockwise from true north");
}

void put_tags(Lines& lines, const std::vector<PlaceTag>& tags) {
    std::vector<std::string> all;
    for (const PlaceTag tag : tags) {
        all.push_back(literal(word_of(tag)));
    }
    lines.put_list("tags", all, "what calls for a caution");
}

void put_tide_closes(Lines& lines, const std::vector<LocalMoment>& moments) {
    std::vector<std::string> all;
    for (const LocalMoment& moment : moments) {
        all.push_back(literal(to_text(moment)));
    }
    lines.put_list("tide_closes", all, "local time at which the tide closes the way");
}

/// What of a place fits on lines of its own table.
void put_plain(Lines& lines, const Place& place) {
    constexpr double kMilli = 1e3;
    lines.put("name", place.name);
    lines.put_position(place.at);
    lines.put("height_m", place.height, "above the sea");
    lines.put("zone", place.zone, "IANA");
    lines.put("ground", word_of(place.ground), "what lies round: water, land or snow");
    if (place.town_zenith_cd_m2 > 0.0) {
        lines.raw("town_glow_mcd_m2", fmt::format("{:.12g}", kMilli * place.town_zenith_cd_m2),
                  "what towns add to a clear night's zenith");
    }
    if (place.water) {
        lines.put("water", word_of(*place.water), "none, still, river or sea");
    }
    put_sheltered(lines, place.sheltered);
    lines.put("phone_cover", place.phone_cover);
    put_tags(lines, place.tags);
    put_tide_closes(lines, place.tide_closes);
}

template <class T>
void put_each(Lines& lines, const std::string& path, const std::vector<T>& all,
              void (*put)(Lines&, const T&)) {
    for (const T& each : all) {
        lines.head(fmt::format("[[{}]]", path));
        put(lines, each);
    }
}

/// A place under the head "[base]" or "[[place]]".
void put_place(Lines& lines, const Place& place, const std::string& path, std::string_view head) {
    lines.head(head);
    put_plain(lines, place);
    if (place.permission) {
        lines.head(fmt::format("[{}.permission]", path));
        put_note(lines, *place.permission);
    }
    put_each(lines, path + ".stand", place.stands, put_stand);
    put_each(lines, path + ".subject", place.subjects, put_subject);
    put_each(lines, path + ".access", place.access, put_leg);
    put_each(lines, path + ".gate", place.gates, put_gate);
    put_each(lines, path + ".note", place.notes, put_note);
}

void put_head(Lines& lines, const Trip& trip) {
    lines.head("[trip]");
    lines.put("name", trip.name);
    lines.put("zone", trip.zone, "IANA");
    lines.put("start", trip.start);
    lines.put("end", trip.end, "the last day");
    lines.put("paid", trip.paid, "whether the group pays");
    lines.put("emergency_number", trip.emergency_number);
    lines.put("plan_holder", trip.plan_holder, "who at the base holds the plan");
}

void put_guest(Lines& lines, const Guest& guest) {
    lines.put("name", guest.name);
    lines.put("starts_for_one", guest.starts_for_one_dawn);
    lines.put("starts_for_one_dusk", guest.starts_for_one_dusk);
    lines.put_yes("opted_out", guest.opted_out, "not to be woken");
    lines.put("finder", word_of(guest.finder), "optical, electronic or unknown");
    lines.put("longest_lens_mm", guest.longest_lens_mm, "focal length");
    lines.put_yes("needs_thought", guest.needs_thought, "on a leg of the way");
    lines.put_yes("drone", guest.drone, "brings one");
}

void put_group(Lines& lines, const Group& group) {
    lines.head("[group]");
    lines.put("size", group.size);
    lines.put("minimum_party", group.minimum_party, "fewer do not go");
    lines.put("starts_for_one", group.starts_for_one_dawn,
              "early starts for nothing that one good dawn is worth");
    lines.put("starts_for_one_dusk", group.starts_for_one_dusk, "the same for a dusk");
    lines.put("starts_left", group.starts_left, "early starts that the group stands on the whole trip");
    lines.put("slowest_kmh", group.slowest_kmh, "the slowest walker on level ground");
    put_each(lines, "group.guest", group.guests, put_guest);
}

void put_settings(Lines& lines, const Trip& trip) {
    lines.head("[driver]");
    lines.put("least_rest_h", trip.driver.least_rest_h, "hours between two days of work");
    lines.put("longest_span_h", trip.driver.longest_span_h, "hours from the first start to the last finish");
    lines.head("[kitchen]");
    lines.put("breakfast", trip.kitchen.breakfast, "local time");
    lines.put("latest_change", trip.kitchen.latest_change, "local time, the evening before");
    lines.head("[chain]");
    lines.put("colour_before_sun_min", trip.chain.colour_before_sun_min, "minutes before sunrise");
    lines.put("settle_min", trip.chain.settle_min, "minutes on the stand before the first frame");
    lines.put("dark_factor", trip.chain.dark_factor, "a walk in the dark takes so many times as long");
    lines.put("load_min", trip.chain.load_min, "minutes from the door into the cars");
    lines.put("wake_to_door_min", trip.chain.wake_to_door_min, "minutes");
    lines.put("look_before_wake_min", trip.chain.look_before_wake_min, "minutes");
}

}  // namespace

std::string to_toml(const Trip& trip) {
    Lines lines;
    put_head(lines, trip);
    if (trip.base) {
        put_place(lines, *trip.base, "base", "[base]");
    }
    put_group(lines, trip.group);
    put_settings(lines, trip);
    for (const Place& place : trip.places) {
        put_place(lines, place, "place", "[[place]]");
    }
    return std::move(lines).text();
}

}  // namespace gloam::trip
