// The basis of a decision as JSON: one list of its parts, for writing and for reading.
#include "app/outing_basis.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "trip/trip_toml.hpp"

namespace gloam::app {
namespace {

using nlohmann::ordered_json;

/// Counts the layouts of the JSON.
constexpr int kLayout = 1;

/// Text that holds no basis.
struct NoBasis : std::runtime_error {
    using std::runtime_error::runtime_error;
};

template <class T>
T must(Result<T> result) {
    return result ? *std::move(result) : throw NoBasis(result.error().message);
}

// Parts that are no plain number, word or list.

ordered_json json_of(const Instant& instant) {
    return instant.time_since_epoch().count();
}
void read(const ordered_json& json, Instant& instant) {
    instant = Instant(Duration(json.get<Duration::rep>()));
}

ordered_json json_of(const CivilDate& date) {
    return gloam::to_text(date);
}
void read(const ordered_json& json, CivilDate& date) {
    date = must(parse_civil_date(json.get<std::string>()));
}

ordered_json json_of(const geo::Zone& zone) {
    return zone.name();
}
void read(const ordered_json& json, geo::Zone& zone) {
    zone = must(geo::Zone::named(json.get<std::string>()));
}

ordered_json json_of(const trip::Trip& trip) {
    return to_toml(trip);
}
void read(const ordered_json& json, trip::Trip& trip) {
    trip = must(trip::parse_trip(json.get<std::string>(), "a stored call"));
}

// Structs: each part with its name.

template <class Archive>
void walk(Archive& archive, ResolvedPlace& place) {
    archive.part("name", place.name);
    archive.part("lat_deg", place.observer.at.lat_deg);
    archive.part("lon_deg", place.observer.at.lon_deg);
    archive.part("height_m", place.observer.height.metres);
    archive.part("zone", place.zone);
    archive.part("notes", place.notes);
    archive.part("ground", place.ground, sky::Ground::kSnow);
    archive.part("town_zenith_cd_m2", place.town_zenith_cd_m2);
}

template <class Archive>
void walk(Archive& archive, CalledBefore& before) {
    archive.part("call", before.call);
    archive.part("look", before.look, OutingLook::kMorning);
    archive.part("made_at", before.made_at);
    archive.part("answer", before.answer);
    archive.part("odds", before.odds);
}

template <class Archive>
void walk(Archive& archive, SetAside& one) {
    archive.part("caution", one.caution);
    archive.part("reason", one.reason);
}

template <class Archive>
void walk(Archive& archive, weather::NearSurface& near) {
    archive.part("least_temperature_k", near.least_temperature_k);
    archive.part("most_temperature_k", near.most_temperature_k);
    archive.part("wind_m_s", near.wind_m_s);
    archive.part("gust_m_s", near.gust_m_s);
    archive.part("visibility_m", near.visibility_m);
    archive.part("precipitation_kg_m2", near.precipitation_kg_m2);
    archive.part("precipitation_rate_kg_m2_s", near.precipitation_rate_kg_m2_s);
    archive.part("cape_j_kg", near.cape_j_kg);
    archive.part("thunder", near.thunder);
}

/// Where a warning holds is not kept: those in a basis may hold at its place.
template <class Archive>
void walk(Archive& archive, weather::Warning& warning) {
    archive.part("issuer", warning.issuer);
    archive.part("event", warning.event);
    archive.part("severity", warning.severity);
    archive.part("headline", warning.headline);
    archive.part("description", warning.description);
    archive.part("instruction", warning.instruction);
    archive.part("sent", warning.sent);
    archive.part("onset", warning.onset);
    archive.part("expires", warning.expires);
}

template <class Archive>
void walk(Archive& archive, decide::KnownWarnings& known) {
    archive.part("warnings", known.warnings);
    archive.part("source", known.source);
    archive.part("as_of", known.as_of);
}

template <class Archive>
void walk(Archive& archive, decide::CautionLimits& limits) {
    for (const decide::NamedLimit& limit : decide::kNamedLimits) {
        archive.part(limit.name, limits.*limit.value);
    }
}

template <class Archive>
void walk(Archive& archive, OutingBasis& basis) {
    archive.part("look", basis.look, OutingLook::kMorning);
    archive.part("now", basis.now);
    archive.part("trip", basis.trip);
    archive.part("place", basis.place);
    archive.part("date", basis.date);
    archive.part("kind", basis.kind, astro::EventKind::kDusk);
    archive.part("class", basis.outcome_class, outlook::OutcomeClass::kOutstanding);
    archive.part("starts_for_one", basis.starts_for_one);
    archive.part("starts_spent", basis.starts_spent);
    archive.part("looks_again", basis.looks_again);
    archive.part("seen", basis.seen);
    archive.part("before", basis.before);
    archive.part("home_at", basis.home_at);
    archive.part("driver_since", basis.driver_since);
    archive.part("source", basis.source);
    archive.part("run_time", basis.run_time);
    archive.part("near", basis.near);
    archive.part("warnings", basis.warnings);
    archive.part("limits", basis.limits);
    archive.part("set_aside", basis.set_aside);
}

template <class T>
concept Plain = std::is_arithmetic_v<T> || std::same_as<T, std::string>;
template <class T>
concept Special = requires(T& value) { json_of(value); };

/// What walk() meets on the way out.
class JsonWriter {
  public:
    template <class T>
    void part(const char* name, T& value) {
        json[name] = written(value);
    }
    template <class T>
    void part(const char* name, T& value, T /*last*/) {
        json[name] = static_cast<int>(value);
    }

    ordered_json json = ordered_json::object();

  private:
    template <class T>
    static ordered_json written(T& value) {
        if constexpr (Plain<T>) {
            return value;
        } else if constexpr (Special<T>) {
            return json_of(value);
        } else {
            JsonWriter inner;
            walk(inner, value);
            return std::move(inner.json);
        }
    }
    template <class T>
    static ordered_json written(std::optional<T>& value) {
        return value ? written(*value) : ordered_json();
    }
    template <class T>
    static ordered_json written(std::vector<T>& values) {
        ordered_json list = ordered_json::array();
        for (T& value : values) {
            list.push_back(written(value));
        }
        return list;
    }
};

/// What walk() meets on the way in. Throws NoBasis and what the JSON library throws.
class JsonReader {
  public:
    explicit JsonReader(const ordered_json& from) : json_(from) {}

    template <class T>
    void part(const char* name, T& value) {
        read_into(json_.at(name), value);
    }
    /// An enumeration of which `last` is the greatest value.
    template <class T>
    void part(const char* name, T& value, T last) {
        const int number = json_.at(name).get<int>();
        if (number < 0 || number > static_cast<int>(last)) {
            throw NoBasis(fmt::format("{} {} stands for nothing", name, number));
        }
        value = static_cast<T>(number);
    }

  private:
    template <class T>
    static void read_into(const ordered_json& json, T& value) {
        if constexpr (Plain<T>) {
            value = json.get<T>();
        } else if constexpr (Special<T>) {
            read(json, value);
        } else {
            JsonReader inner(json);
            walk(inner, value);
        }
    }
    template <class T>
    static void read_into(const ordered_json& json, std::optional<T>& value) {
        value.reset();
        if (!json.is_null()) {
            read_into(json, value.emplace());
        }
    }
    template <class T>
    static void read_into(const ordered_json& json, std::vector<T>& values) {
        values.clear();
        for (const ordered_json& one : json) {
            read_into(one, values.emplace_back());
        }
    }

    const ordered_json& json_;
};

}  // namespace

std::string to_json(const OutingBasis& basis) {
    OutingBasis copy = basis;  // walk() takes what it may fill
    JsonWriter writer;
    int layout = kLayout;
    writer.part("layout", layout);
    walk(writer, copy);
    return writer.json.dump(1);
}

Result<OutingBasis> parse_outing_basis(std::string_view text) {
    OutingBasis basis{.place = {{}, {}, geo::Zone::named("UTC").value(), {}}};
    std::string trouble;
    try {
        const ordered_json json = ordered_json::parse(text);
        JsonReader reader(json);
        int layout = 0;
        reader.part("layout", layout);
        if (layout == kLayout) {
            walk(reader, basis);
            return basis;
        }
        trouble = fmt::format("their layout is {}, this program writes {}", layout, kLayout);
    } catch (const nlohmann::json::exception& error) {
        trouble = error.what();
    } catch (const NoBasis& error) {
        trouble = error.what();
    }
    return fail(ErrorKind::kUnreadable, "the stored inputs cannot be read: " + trouble, "",
                "make the call again from its forecast files");
}

}  // namespace gloam::app
