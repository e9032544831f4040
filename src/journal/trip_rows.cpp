#include "journal/trip_rows.hpp"

#include <fmt/format.h>

#include "geo/quoted.hpp"
#include "trip/words.hpp"

namespace gloam::journal {
namespace {

using trip::AccessLeg;
using trip::DatedNote;
using trip::Gate;
using trip::Guest;
using trip::Place;
using trip::PlaceTag;
using trip::Stand;
using trip::Subject;
using trip::WindSector;

template <class Kind>
Kind word(Statement& row) {
    const auto kind = trip::from_word<Kind>(row.next<std::string>());
    if (!kind) {
        row.damaged("word that is known");
    }
    return *kind;
}

template <class Kind>
std::optional<std::string_view> word_if(const std::optional<Kind>& kind) {
    return kind ? std::optional(trip::word_of(*kind)) : std::nullopt;
}

template <class Kind>
std::optional<Kind> word_or_null(Statement& row) {
    const auto text = row.next_if<std::string>();
    const auto kind = text ? trip::from_word<Kind>(*text) : std::nullopt;
    if (text && !kind) {
        row.damaged("word that is known");
    }
    return kind;
}

geo::LatLon position(Statement& row) {
    const double lat_deg = row.next<double>();
    const auto at = geo::make_lat_lon(lat_deg, row.next<double>());
    if (!at) {
        row.damaged("position on Earth");
    }
    return *at;
}

// One pair of functions a table: how a thing is written as the n-th of its place, and how a row is read.

void write(Database& database, std::int64_t place, int ordinal, const Stand& stand) {
    database.change("INSERT INTO stand VALUES (?, ?, ?, ?, ?, ?, ?, ?)", place, ordinal, stand.name,
                    stand.at.lat_deg, stand.at.lon_deg, stand.height, stand.view, stand.tripods);
}

Stand read_stand(Statement& row) {
    return {row.next<std::string>(), position(row), row.next_if<HeightMsl>(), row.next_if<Azimuth>(),
            row.next_if<int>()};
}

void write(Database& database, std::int64_t place, int ordinal, const Subject& subject) {
    database.change("INSERT INTO subject VALUES (?, ?, ?, ?, ?, ?, ?, ?)", place, ordinal, subject.name,
                    subject.at.lat_deg, subject.at.lon_deg, subject.base, subject.top, subject.width_m);
}

Subject read_subject(Statement& row) {
    return {row.next<std::string>(), position(row), row.next_if<HeightMsl>(), row.next_if<HeightMsl>(),
            row.next_if<double>()};
}

void write(Database& database, std::int64_t place, int ordinal, const WindSector& sector) {
    database.change("INSERT INTO shelter VALUES (?, ?, ?, ?)", place, ordinal, sector.from, sector.to);
}

WindSector read_sector(Statement& row) {
    return {row.next<Azimuth>(), row.next<Azimuth>()};
}

void write(Database& database, std::int64_t place, int ordinal, const AccessLeg& leg) {
    database.change("INSERT INTO access_leg VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", place, ordinal,
                    trip::word_of(leg.kind), leg.name, leg.minutes, leg.distance_m, leg.climb_m,
                    leg.descent_m, leg.never_in_the_dark, leg.last_walked);
}

AccessLeg read_leg(Statement& row) {
    return {word<trip::LegKind>(row), row.next_if<std::string>(), row.next_if<double>(),
            row.next_if<double>(),    row.next_if<double>(),      row.next_if<double>(),
            row.next<bool>(),         row.next_if<CivilDate>()};
}

void write(Database& database, std::int64_t place, int ordinal, const Gate& gate) {
    database.change("INSERT INTO gate VALUES (?, ?, ?, ?, ?)", place, ordinal, gate.name, gate.opens,
                    gate.closes);
}

Gate read_gate(Statement& row) {
    return {row.next<std::string>(), row.next_if<trip::ClockTime>(), row.next_if<trip::ClockTime>()};
}

void write(Database& database, std::int64_t place, int ordinal, PlaceTag tag) {
    database.change("INSERT INTO tag VALUES (?, ?, ?)", place, ordinal, trip::word_of(tag));
}

void write(Database& database, std::int64_t place, int ordinal, const DatedNote& note) {
    database.change("INSERT INTO note VALUES (?, ?, ?, ?)", place, ordinal, note.text, note.date);
}

DatedNote read_note(Statement& row) {
    return {row.next<std::string>(), row.next<CivilDate>()};
}

void write(Database& database, std::int64_t place, int ordinal, const trip::LocalMoment& moment) {
    database.change("INSERT INTO tide_closing VALUES (?, ?, ?)", place, ordinal, moment);
}

trip::LocalMoment read_moment(Statement& row) {
    return row.next<trip::LocalMoment>();
}

template <class T>
void write_all(Database& database, std::int64_t place, const std::vector<T>& all) {
    for (int ordinal = 0; const T& each : all) {
        write(database, place, ordinal++, each);
    }
}

/// What the columns of a table hold for a place, in order.
template <class Read>
auto read_all(const Database& database, std::int64_t place, std::string_view columns, std::string_view table,
              Read read) {
    std::vector<decltype(read(std::declval<Statement&>()))> all;
    Statement row = database.query(
        fmt::format("SELECT {} FROM {} WHERE place = ? ORDER BY ordinal", columns, table), place);
    while (row.step()) {
        all.push_back(read(row));
    }
    return all;
}

void write_place(Database& database, std::int64_t trip, int ordinal, bool is_base, const Place& place) {
    const auto text = place.permission ? std::optional(place.permission->text) : std::nullopt;
    const auto date = place.permission ? std::optional(place.permission->date) : std::nullopt;
    const std::int64_t row = database.change(
        "INSERT INTO place (trip, ordinal, is_base, name, lat_deg, lon_deg, height_m, zone, ground,"
        " town_zenith_cd_m2, water, permission, permission_date, phone_cover)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        trip, ordinal, is_base, place.name, place.at.lat_deg, place.at.lon_deg, place.height, place.zone,
        trip::word_of(place.ground), place.town_zenith_cd_m2, word_if(place.water), text, date,
        place.phone_cover);
    write_all(database, row, place.stands);
    write_all(database, row, place.subjects);
    write_all(database, row, place.sheltered);
    write_all(database, row, place.access);
    write_all(database, row, place.gates);
    write_all(database, row, place.tags);
    write_all(database, row, place.notes);
    write_all(database, row, place.tide_closes);
}

std::optional<DatedNote> read_permission(Statement& row) {
    auto text = row.next_if<std::string>();
    const auto date = row.next_if<CivilDate>();
    return text && date ? std::optional(DatedNote{*std::move(text), *date}) : std::nullopt;
}

Place read_place(const Database& database, Statement& row) {
    const auto id = row.next<std::int64_t>();
    Place place;
    place.name = row.next<std::string>();
    place.at = position(row);
    place.height = row.next_if<HeightMsl>();
    place.zone = row.next_if<std::string>();
    place.ground = word<sky::Ground>(row);
    place.town_zenith_cd_m2 = row.next<double>();
    place.water = word_or_null<trip::Water>(row);
    place.permission = read_permission(row);
    place.phone_cover = row.next_if<std::string>();
    place.stands =
        read_all(database, id, "name, lat_deg, lon_deg, height_m, view_deg, tripods", "stand", read_stand);
    place.subjects = read_all(database, id, "name, lat_deg, lon_deg, base_height_m, top_height_m, width_m",
                              "subject", read_subject);
    place.sheltered = read_all(database, id, "from_deg, to_deg", "shelter", read_sector);
    place.access = read_all(
        database, id, "kind, name, minutes, distance_m, climb_m, descent_m, never_in_the_dark, last_walked",
        "access_leg", read_leg);
    place.gates = read_all(database, id, "name, opens, closes", "gate", read_gate);
    place.tags = read_all(database, id, "tag", "tag", word<PlaceTag>);
    place.notes = read_all(database, id, "text, date", "note", read_note);
    place.tide_closes = read_all(database, id, "moment", "tide_closing", read_moment);
    return place;
}

std::vector<Place> read_places(const Database& database, std::int64_t trip, bool is_base) {
    std::vector<Place> places;
    Statement row = database.query(
        "SELECT id, name, lat_deg, lon_deg, height_m, zone, ground, town_zenith_cd_m2, water, permission,"
        " permission_date, phone_cover FROM place WHERE trip = ? AND is_base = ? ORDER BY ordinal",
        trip, is_base);
    while (row.step()) {
        places.push_back(read_place(database, row));
    }
    return places;
}

void write_guest(Database& database, std::int64_t trip, int ordinal, const Guest& guest) {
    database.change(
        "INSERT INTO guest (trip, ordinal, name, starts_for_one_dawn, starts_for_one_dusk, opted_out, finder,"
        " longest_lens_mm, needs_thought, drone) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (trip, name) DO UPDATE SET (ordinal, starts_for_one_dawn, starts_for_one_dusk, "
        "opted_out,"
        " finder, longest_lens_mm, needs_thought, drone) = (excluded.ordinal, excluded.starts_for_one_dawn,"
        " excluded.starts_for_one_dusk, excluded.opted_out, excluded.finder, excluded.longest_lens_mm,"
        " excluded.needs_thought, excluded.drone)",
        trip, ordinal, guest.name, guest.starts_for_one_dawn, guest.starts_for_one_dusk, guest.opted_out,
        trip::word_of(guest.finder), guest.longest_lens_mm, guest.needs_thought, guest.drone);
}

/// Guests who stay keep their rows; an ordinal of -1 marks those who have not come again.
void write_guests(Database& database, std::int64_t trip, const std::vector<Guest>& guests) {
    database.change("UPDATE guest SET ordinal = -1 WHERE trip = ?", trip);
    for (int ordinal = 0; const Guest& guest : guests) {
        write_guest(database, trip, ordinal++, guest);
    }
    database.change("DELETE FROM guest WHERE trip = ? AND ordinal = -1", trip);
}

std::vector<Guest> read_guests(const Database& database, std::int64_t trip) {
    std::vector<Guest> guests;
    Statement row = database.query(
        "SELECT name, starts_for_one_dawn, starts_for_one_dusk, opted_out, finder, longest_lens_mm,"
        " needs_thought, drone FROM guest WHERE trip = ? ORDER BY ordinal",
        trip);
    while (row.step()) {
        guests.push_back({row.next<std::string>(), row.next_if<double>(), row.next_if<double>(),
                          row.next<bool>(), word<trip::Finder>(row), row.next_if<double>(), row.next<bool>(),
                          row.next<bool>()});
    }
    return guests;
}

void write_head(Database& database, std::int64_t row, const trip::Trip& trip) {
    database.change(
        "UPDATE trip SET (zone, first_day, last_day, paid, emergency_number, plan_holder, group_size,"
        " minimum_party, starts_for_one_dawn, starts_for_one_dusk, starts_left, slowest_kmh, least_rest_h,"
        " longest_span_h, breakfast, latest_change, colour_before_sun_min, settle_min, dark_factor, load_min,"
        " wake_to_door_min, look_before_wake_min)"
        " = (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) WHERE id = ?",
        trip.zone, trip.start, trip.end, trip.paid, trip.emergency_number, trip.plan_holder, trip.group.size,
        trip.group.minimum_party, trip.group.starts_for_one_dawn, trip.group.starts_for_one_dusk,
        trip.group.starts_left, trip.group.slowest_kmh, trip.driver.least_rest_h, trip.driver.longest_span_h,
        trip.kitchen.breakfast, trip.kitchen.latest_change, trip.chain.colour_before_sun_min,
        trip.chain.settle_min, trip.chain.dark_factor, trip.chain.load_min, trip.chain.wake_to_door_min,
        trip.chain.look_before_wake_min, row);
}

trip::Trip read_head(const Database& database, std::int64_t id) {
    Statement row = database.query(
        "SELECT name, zone, first_day, last_day, paid, emergency_number, plan_holder, group_size,"
        " minimum_party, starts_for_one_dawn, starts_for_one_dusk, starts_left, slowest_kmh, least_rest_h,"
        " longest_span_h, breakfast, latest_change, colour_before_sun_min, settle_min, dark_factor, load_min,"
        " wake_to_door_min, look_before_wake_min FROM trip WHERE id = ?",
        id);
    row.step();
    trip::Trip trip;
    trip.name = row.next<std::string>();
    trip.zone = row.next_if<std::string>();
    trip.start = row.next_if<CivilDate>();
    trip.end = row.next_if<CivilDate>();
    trip.paid = row.next_if<bool>();
    trip.emergency_number = row.next_if<std::string>();
    trip.plan_holder = row.next_if<std::string>();
    trip.group = {row.next_if<int>(),
                  row.next_if<int>(),
                  row.next_if<double>(),
                  row.next_if<double>(),
                  row.next_if<int>(),
                  row.next_if<double>(),
                  {}};
    trip.driver = {row.next_if<double>(), row.next_if<double>()};
    trip.kitchen = {row.next_if<trip::ClockTime>(), row.next_if<trip::ClockTime>()};
    trip.chain = {row.next_if<double>(), row.next_if<double>(), row.next_if<double>(),
                  row.next_if<double>(), row.next_if<double>(), row.next_if<double>()};
    return trip;
}

}  // namespace

std::optional<std::int64_t> trip_row(const Database& database, std::string_view name) {
    Statement row = database.query("SELECT id FROM trip WHERE name = ?", name);
    return row.step() ? std::optional(row.next<std::int64_t>()) : std::nullopt;
}

std::int64_t needed_trip_row(const Database& database, std::string_view name) {
    const auto row = trip_row(database, name);
    if (!row) {
        throw Failure{{ErrorKind::kNotFound, fmt::format("the journal has no trip {}", geo::quoted(name)),
                       database.file().string(), "gloam trip list shows its trips"}};
    }
    return *row;
}

std::int64_t write_trip(Database& database, std::optional<std::int64_t> row, const trip::Trip& trip) {
    const std::int64_t id = row ? *row : database.change("INSERT INTO trip (name) VALUES (?)", trip.name);
    write_head(database, id, trip);
    write_guests(database, id, trip.group.guests);
    database.change("DELETE FROM place WHERE trip = ?", id);
    if (trip.base) {
        write_place(database, id, 0, true, *trip.base);
    }
    for (int ordinal = 0; const Place& place : trip.places) {
        write_place(database, id, ordinal++, false, place);
    }
    return id;
}

trip::Trip read_trip(const Database& database, std::int64_t row) {
    trip::Trip trip = read_head(database, row);
    trip.group.guests = read_guests(database, row);
    for (Place& base : read_places(database, row, true)) {
        trip.base = std::move(base);
    }
    trip.places = read_places(database, row, false);
    return trip;
}

}  // namespace gloam::journal
