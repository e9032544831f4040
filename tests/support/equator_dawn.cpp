#include "support/equator_dawn.hpp"

#include <algorithm>
#include <stdexcept>

#include "air/standard_atmosphere.hpp"
#include "sky/embedded_tables.hpp"
#include "weather/forecast.hpp"

namespace gloam::synthetic {
namespace {

constexpr double kKmPerDegree = 111.2;
constexpr double kWarmer = 1.02;

// From 3 degrees off the path on either side to 5 degrees behind the viewer and 10 in front of him: the light
// path and every displacement of it.
constexpr SyntheticGrid kGrid{.north_deg = 6.0, .west_deg = -8.0, .step_deg = 0.5, .rows = 25, .columns = 49};

template <class T>
T must(Result<T> result) {
    if (!result) {
        throw std::runtime_error(to_text(result.error()));
    }
    return *std::move(result);
}

Instant run_time() {
    return parse_rfc3339("2025-03-20T00:00:00Z").value();
}

SyntheticMessage about_step(int step_minutes, std::optional<int> member) {
    return {.run_time = run_time(),
            .from = std::chrono::minutes(step_minutes),
            .to = std::chrono::minutes(step_minutes),
            .member = member,
            .grid = kGrid};
}

void append(Bytes& file, const Bytes& more) {
    file.insert(file.end(), more.begin(), more.end());
}

Bytes step_of(const DawnFile& file, const CoverAlong& cover, int step_minutes, std::optional<int> member) {
    Bytes bytes;
    SyntheticMessage about = about_step(step_minutes, member);
    for (const double level_hpa : file.levels_hpa) {
        about.pressure_pa = 100.0 * level_hpa;
        append(
            bytes, message(about, [&](double, double lon_deg) {
                return std::optional(100.0 * cover(kKmPerDegree * lon_deg, 100.0 * level_hpa, step_minutes));
            }));
    }
    if (file.heights) {
        about.category = 3;
        about.number = 5;
        for (const double level_hpa : kUsualLevels_hpa) {
            about.pressure_pa = 100.0 * level_hpa;
            append(bytes, message(about, [&](double, double) {
                       return std::optional(kWarmer * air::pressure_altitude_m(about.pressure_pa));
                   }));
        }
    }
    if (file.total) {
        about.category = 6;
        about.number = 1;
        about.level_type = 10;
        append(bytes, message(about, [&](double, double lon_deg) {
                   double greatest = 0.0;
                   for (const double level_hpa : kUsualLevels_hpa) {
                       greatest =
                           std::max(greatest, cover(kKmPerDegree * lon_deg, 100.0 * level_hpa, step_minutes));
                   }
                   return std::optional(100.0 * greatest);
               }));
    }
    return bytes;
}

}  // namespace

const sky::SkyTables& tables() {
    static const sky::SkyTables kTables = must(sky::unpack_sky_tables(sky::embedded_tables()));
    return kTables;
}

outlook::EventRequest equator_dawn() {
    const astro::Observer observer{{0.0, 0.0}, HeightMsl{0.0}};
    const auto zone = must(geo::Zone::named("Etc/UTC"));
    const auto date = must(parse_civil_date("2025-03-20"));
    return {observer, must(astro::half_day_of(observer, zone, date, astro::EventKind::kDawn)), run_time()};
}

Instant at_sunrise() {
    return parse_rfc3339("2025-03-20T06:05:00Z").value();
}

std::function<double(double)> everywhere(double cover) {
    return [cover](double) { return cover; };
}

std::function<double(double)> up_to_km(double edge_km, double cover) {
    return [=](double along_km) { return along_km <= edge_km ? cover : 0.0; };
}

std::function<double(double)> between_km(double from_km, double to_km, double cover) {
    return [=](double along_km) { return along_km >= from_km && along_km <= to_km ? cover : 0.0; };
}

Bytes dawn_file(const DawnFile& about, const CoverAlong& cover) {
    Bytes file;
    for (int member = about.first_member; member < about.first_member + about.members; ++member) {
        for (const int step_minutes : about.step_minutes) {
            append(file, step_of(about, cover, step_minutes,
                                 about.members > 1 ? std::optional(member) : std::nullopt));
        }
    }
    return file;
}

Bytes dawn_file(const DawnFile& about, const std::vector<Deck>& decks) {
    return dawn_file(about, [&](double along_km, double pressure_pa, int) {
        double greatest = 0.0;
        for (const Deck& deck : decks) {
            const auto on = [&](double level_hpa) { return 100.0 * level_hpa == pressure_pa; };
            if (std::any_of(deck.levels_hpa.begin(), deck.levels_hpa.end(), on)) {
                greatest = std::max(greatest, deck.cover(along_km));
            }
        }
        return greatest;
    });
}

weather::LayeredForecast layers_in(const Bytes& bytes) {
    return must(weather::layers_of(must(weather::read_grib(bytes, "synthetic.grib2"))));
}

outlook::EventOutlook outlook_of(const weather::LayeredForecast& forecast) {
    return look_out(tables(), must(outlook::sample_event(forecast, equator_dawn())));
}

outlook::EventOutlook look_out_on(const Bytes& bytes) {
    return outlook_of(layers_in(bytes));
}

}  // namespace gloam::synthetic
