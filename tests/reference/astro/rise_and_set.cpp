// Rise, set and twilight times against a JPL ephemeris and against published tables.
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <vector>

#include "astro/crossing.hpp"
#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"

namespace gloam::astro {
namespace {

using test::ReferenceFile;
using test::Worst;

/// Seconds allowed, against a promise of 30 s and 3 min; the second for passages so flat that a small error
/// of the altitude costs much time.
constexpr double kAllowed_s = 5.0;
constexpr double kAllowedFlat_s = 10.0;
constexpr double kFlat_deg_h = 1.0;  // a tenth of the usual rate at 45 deg of latitude

struct Definition {
    const char* name;
    Body body;
    double altitude_deg;
};
constexpr Definition kDefinitions[] = {
    {"sun_-0.8333", Body::kSun, -50.0 / 60.0},
    {"civil_-6", Body::kSun, -6.0},
    {"nautical_-12", Body::kSun, -12.0},
    {"astronomical_-18", Body::kSun, -18.0},
    {"moon_upper_limb_34", Body::kMoon, -34.0 / 60.0},
};

/// One place and local date of the table.
struct Case {
    std::string label;
    Observer observer;
    geo::InstantSpan day;
    std::map<std::string, std::vector<std::size_t>> rows;  ///< by event
};

std::map<std::string, Case> read_cases(const ReferenceFile& file) {
    std::map<std::string, Case> cases;
    for (std::size_t row = 0; row < file.size(); ++row) {
        Case& one = cases[file.text(row, "case")];
        one.label = file.text(row, "place") + " " + file.text(row, "local_date");
        one.observer = {geo::make_lat_lon(file.number(row, "lat_deg"), file.number(row, "lon_deg")).value(),
                        HeightMsl{file.number(row, "height_m")}};
        one.day = geo::Zone::named(file.text(row, "tz"))
                      .value()
                      .span_of(parse_civil_date(file.text(row, "local_date")).value())
                      .value();
        one.rows[file.text(row, "event")].push_back(row);
    }
    return cases;
}

std::vector<Crossing> found_by_us(const Case& one, const Definition& definition, bool rising) {
    const TrueAltitude altitude{Angle::degrees(definition.altitude_deg)};
    auto found = definition.body == Body::kSun
                     ? crossings(Body::kSun, one.observer, one.day, altitude)
                     : upper_limb_crossings(Body::kMoon, one.observer, one.day, altitude);
    std::erase_if(found, [&](const Crossing& crossing) { return crossing.rising != rising; });
    return found;
}

double altitude_rate_deg_h(Body body, const Observer& observer, Instant instant) {
    const auto at = [&](Duration shift) {
        return position_of(body, observer, instant + shift).altitude.angle.degrees();
    };
    return std::abs(at(std::chrono::minutes(1)) - at(std::chrono::minutes(-1))) * 30.0;
}

TEST(RiseAndSet, AgreeWithJplAt50PlacesAndDates) {
    const ReferenceFile file("riseset_cases.csv");
    Worst steep;
    Worst flat;
    Worst azimuth;
    for (const auto& [id, one] : read_cases(file)) {
        for (const Definition& definition : kDefinitions) {
            for (const bool rising : {true, false}) {
                const std::string event = std::string(definition.name) + (rising ? "_rise" : "_set");
                const auto known = one.rows.find(event);
                const auto rows = known == one.rows.end() ? std::vector<std::size_t>{} : known->second;
                const auto found = found_by_us(one, definition, rising);
                ASSERT_EQ(found.size(), rows.size()) << one.label << " " << event;
                for (std::size_t i = 0; i < rows.size(); ++i) {
                    const Instant expected = parse_rfc3339(file.text(rows[i], "utc")).value();
                    const double error_s = 3600.0 * hours_between(expected, found[i].instant);
                    const bool is_flat =
                        altitude_rate_deg_h(definition.body, one.observer, expected) < kFlat_deg_h;
                    (is_flat ? flat : steep).add(error_s, one.label + " " + event);
                    if (!is_flat) {
                        const auto theirs = Azimuth::degrees(file.number(rows[i], "azimuth_deg"));
                        azimuth.add(turn(theirs, found[i].azimuth).degrees(), one.label + " " + event);
                    }
                }
            }
        }
    }
    steep.report("rise, set and twilight, JPL DE405", "s");
    flat.report("the same where the body grazes the horizon", "s");
    azimuth.report("azimuth at rise and set", "deg");
    EXPECT_EQ(steep.count() + flat.count(), 388);
    EXPECT_LT(steep.value(), kAllowed_s);
    EXPECT_LT(flat.value(), kAllowedFlat_s);
    EXPECT_LT(azimuth.value(), 0.05);
}

TEST(RiseAndSet, PolarDayAndNightAreToldAsTheyAre) {
    const ReferenceFile file("riseset_cases.csv");
    int told = 0;
    for (const auto& [id, one] : read_cases(file)) {
        const bool up = one.rows.contains("sun_always_up");
        const bool down = one.rows.contains("sun_always_down");
        if (up || down) {
            EXPECT_TRUE(crossings(Body::kSun, one.observer, one.day, standard_rise_altitude()).empty())
                << one.label;
            const auto noon = position_of(Body::kSun, one.observer, one.day.begin + std::chrono::hours(12));
            EXPECT_EQ(noon.altitude > standard_rise_altitude(), up) << one.label;
            ++told;
        }
    }
    EXPECT_EQ(told, 5);
}

/// Hours of "07:19" or "07:08:12".
double clock_hours(const std::string& text) {
    const double h = std::stod(text.substr(0, 2));
    const double m = std::stod(text.substr(3, 2));
    return h + m / 60.0 + (text.size() > 5 ? std::stod(text.substr(6)) / 3600.0 : 0.0);
}

TEST(RiseAndSet, AgreeWithPublishedTablesToTheirRounding) {
    const ReferenceFile file("usno_riseset_published.csv");
    Worst to_minute;
    Worst to_second;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const Observer observer{{file.number(row, "lat_deg"), file.number(row, "lon_deg")}, HeightMsl{0.0}};
        const auto date = parse_civil_date(file.text(row, "date")).value();
        const Instant midnight =
            Instant(std::chrono::sys_days(date)) - hours(file.number(row, "utc_offset_h"));
        const auto found = crossings(Body::kSun, observer, {midnight, midnight + std::chrono::hours(24)},
                                     standard_rise_altitude());
        ASSERT_EQ(found.size(), 2U) << file.text(row, "place");
        for (const Crossing& crossing : found) {
            const std::string& clock = file.text(row, crossing.rising ? "sunrise_local" : "sunset_local");
            const double error_s = 3600.0 * (hours_between(midnight, crossing.instant) - clock_hours(clock));
            (clock.size() == 5 ? to_minute : to_second)
                .add(error_s, file.text(row, "place") + " " + file.text(row, "date"));
        }
    }
    to_minute.report("sunrise and sunset, USNO to the minute", "s");
    to_second.report("sunrise and sunset, NREL to the second", "s");
    EXPECT_EQ(to_minute.count(), 16);
    EXPECT_LE(to_minute.value(), 31.0);
    EXPECT_LE(to_second.value(), 3.0);
}

}  // namespace
}  // namespace gloam::astro
