// Sun and moon against three outside sources: NREL's worked example, tables of the US Naval Observatory, and
// a JPL ephemeris. The promise is 0.01 deg for the sun and 0.02 deg for the moon; the bounds here are what is
// reached.
#include <gtest/gtest.h>

#include "astro/ephemeris.hpp"
#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"

namespace gloam::astro {
namespace {

using test::ReferenceFile;
using test::separation_deg;
using test::Worst;

Instant instant_of(const std::string& text) {
    return parse_rfc3339(text).value();
}

Observer observer_of(const ReferenceFile& file, std::size_t row) {
    return {geo::make_lat_lon(file.number(row, "lat_deg"), file.number(row, "lon_deg")).value(),
            HeightMsl{file.number(row, "height_m")}};
}

double error_deg(const BodyPosition& ours, double azimuth_deg, double altitude_deg) {
    return separation_deg(ours.azimuth, ours.altitude.angle, Azimuth::degrees(azimuth_deg),
                          Angle::degrees(altitude_deg));
}

double worked_value(const ReferenceFile& file, std::string_view quantity) {
    for (std::size_t row = 0; row < file.size(); ++row) {
        if (file.text(row, "quantity") == quantity) {
            return file.number(row, "value");
        }
    }
    throw std::runtime_error("no such quantity in the worked example");
}

TEST(SunPosition, AgreesWithTheWorkedExampleOfNrel) {
    const ReferenceFile file("spa_worked_example.csv");
    const Observer observer{{worked_value(file, "latitude"), worked_value(file, "longitude")},
                            HeightMsl{worked_value(file, "elevation")}};
    const BodyPosition sun = position_of(Body::kSun, observer, instant_of("2003-10-17T12:30:30-07:00"));
    Worst worst;
    worst.add(error_deg(sun, worked_value(file, "topocentric azimuth (east from north)"),
                        worked_value(file, "topocentric elevation without refraction")),
              "2003-10-17");
    worst.report("sun, NREL", "deg");
    EXPECT_LT(worst.value(), 3e-4);
}

Worst worst_of_mica(const char* name, Body body) {
    const ReferenceFile file(name);
    Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        if ((file.text(row, "body") == "Sun") == (body == Body::kSun)) {
            const std::string& time = file.text(row, "ut1");
            const BodyPosition ours = position_of(body, observer_of(file, row), instant_of(time + "Z"));
            worst.add(error_deg(ours, file.number(row, "azimuth_deg"),
                                90.0 - file.number(row, "zenith_distance_deg")),
                      time);
        }
    }
    return worst;
}

class MicaTable : public ::testing::TestWithParam<const char*> {};

TEST_P(MicaTable, PutsTheSunWithinATenThousandthOfADegree) {
    const Worst worst = worst_of_mica(GetParam(), Body::kSun);
    worst.report("sun, USNO MICA", "deg");
    EXPECT_GT(worst.count(), 100);
    EXPECT_LT(worst.value(), 0.0001);
}

TEST_P(MicaTable, PutsTheMoonWithinThreeThousandthsOfADegree) {
    const Worst worst = worst_of_mica(GetParam(), Body::kMoon);
    worst.report("moon, USNO MICA", "deg");
    EXPECT_GT(worst.count(), 100);
    EXPECT_LT(worst.value(), 0.003);
}

INSTANTIATE_TEST_SUITE_P(, MicaTable,
                         ::testing::Values("usno_mica_topocentric_cssp.csv", "usno_mica_topocentric_drl.csv"),
                         [](const auto& table) { return table.index == 0 ? "Cssp" : "Drl"; });

struct Columns {
    Body body;
    const char* azimuth;
    const char* altitude;
    const char* semidiameter;
};
constexpr Columns kSun{Body::kSun, "sun_az", "sun_alt", "sun_sd"};
constexpr Columns kMoon{Body::kMoon, "moon_az", "moon_alt", "moon_sd"};

Worst worst_of_jpl(const Columns& columns, double& worst_semidiameter_deg) {
    const ReferenceFile file("sunmoon_positions_200.csv");
    Worst worst;
    Worst semidiameter;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const std::string& time = file.text(row, "utc");
        const BodyPosition ours = position_of(columns.body, observer_of(file, row), instant_of(time));
        worst.add(error_deg(ours, file.number(row, columns.azimuth), file.number(row, columns.altitude)),
                  time);
        semidiameter.add(ours.semidiameter.degrees() - file.number(row, columns.semidiameter), time);
    }
    worst_semidiameter_deg = semidiameter.value();
    return worst;
}

TEST(SunPosition, AgreesWithJplAt200PlacesAndTimes) {
    double semidiameter_deg = 0.0;
    const Worst worst = worst_of_jpl(kSun, semidiameter_deg);
    worst.report("sun, JPL DE405", "deg");
    EXPECT_EQ(worst.count(), 200);
    EXPECT_LT(worst.value(), 0.0001);
    EXPECT_LT(semidiameter_deg, 0.0002);
}

TEST(MoonPosition, AgreesWithJplAt200PlacesAndTimes) {
    double semidiameter_deg = 0.0;
    const Worst worst = worst_of_jpl(kMoon, semidiameter_deg);
    worst.report("moon, JPL DE405", "deg");
    EXPECT_EQ(worst.count(), 200);
    EXPECT_LT(worst.value(), 0.003);
    EXPECT_LT(semidiameter_deg, 0.0002);
}

}  // namespace
}  // namespace gloam::astro
