#include "app/toml_files.hpp"

#include <gmock/gmock.h>

namespace gloam::app {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

constexpr std::string_view kWhole = R"([trip]
name = "Ionian week"
zone = "Europe/Rome"
start = 2025-01-25
end = "2025-02-01"

[base]
name = "House by the harbour"
lat = 37.064
lon = 15.289

[group]
size = 6
starts_for_one = 3

[[place]]
name = "Salt Steps"
lat = 37.070
lon = 15.290
height_m = 4
ground = "water"
town_glow_mcd_m2 = 0.4

[[place]]
name = "Lantern Ledge"
lat = 37
lon = -345
zone = "Europe/Malta"
)";

TEST(TripFile, IsReadWhole) {
    const Trip trip = parse_trip(kWhole, "trip.toml").value();
    EXPECT_EQ(trip.name, "Ionian week");
    EXPECT_EQ(trip.zone, "Europe/Rome");
    EXPECT_EQ(trip.start, parse_civil_date("2025-01-25").value());
    EXPECT_EQ(trip.end, parse_civil_date("2025-02-01").value());
    EXPECT_EQ(trip.base->name, "House by the harbour");
    EXPECT_EQ(trip.group_size, 6);
    EXPECT_EQ(trip.starts_for_one, 3.0);
    ASSERT_EQ(trip.places.size(), 2U);
    EXPECT_EQ(trip.places[0].height->metres, 4.0);
    EXPECT_EQ(trip.places[0].zone, std::nullopt);
    EXPECT_EQ(trip.places[0].ground, sky::Ground::kWater);
    EXPECT_DOUBLE_EQ(trip.places[0].town_zenith_cd_m2, 4e-4);
    EXPECT_EQ(trip.places[1].height, std::nullopt);
    EXPECT_EQ(trip.places[1].ground, sky::Ground::kLand);
    EXPECT_EQ(trip.places[1].town_zenith_cd_m2, 0.0);
    EXPECT_EQ(trip.places[1].zone, "Europe/Malta");
    EXPECT_EQ(trip.places[1].at.lon_deg, 15.0);
}

TEST(TripFile, NeedsNoMoreThanAName) {
    const Trip trip = parse_trip("[trip]\nname = \"x\"\n", "trip.toml").value();
    EXPECT_EQ(trip.base, std::nullopt);
    EXPECT_EQ(trip.starts_for_one, std::nullopt);
    EXPECT_TRUE(trip.places.empty());
}

/// A trip file that must be refused, and what its error must say.
struct Hostile {
    const char* name;
    const char* toml;
    ErrorKind kind;
    const char* message;
    const char* where;
    const char* hint;
};

void PrintTo(const Hostile& hostile, std::ostream* stream) {
    *stream << hostile.name;
}

class HostileTrip : public ::testing::TestWithParam<Hostile> {};

TEST_P(HostileTrip, IsRefusedWithItsPlaceAndARemedy) {
    const auto trip = parse_trip(GetParam().toml, "trip.toml");
    ASSERT_FALSE(trip);
    EXPECT_EQ(trip.error().kind, GetParam().kind);
    EXPECT_THAT(trip.error().message, HasSubstr(GetParam().message));
    EXPECT_THAT(trip.error().where, AllOf(HasSubstr("trip.toml"), HasSubstr(GetParam().where)));
    EXPECT_THAT(trip.error().hint, HasSubstr(GetParam().hint));
}

constexpr auto kBad = ErrorKind::kBadInput;

INSTANTIATE_TEST_SUITE_P(
    , HostileTrip,
    ::testing::Values(
        Hostile{"empty", "", kBad, "no [trip] table", "", "begin the file with [trip]"},
        Hostile{"unknown_table", "[trip]\nname = \"x\"\n[tripp]\nname = \"y\"\n", kBad, "'tripp'", "line 3",
                "known keys: trip"},
        Hostile{"unknown_key", "[trip]\nname = \"x\"\ncolour = 1\n", kBad, "'colour' is not a key",
                "line 3, [trip]", "name, zone, start, end"},
        Hostile{"unknown_key_of_a_place", "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlatt = 1\n", kBad,
                "'latt'", "line 5, [[place]]", "height_m"},
        Hostile{"no_name", "[trip]\nzone = \"Europe/Rome\"\n", kBad, "'name' is missing", "[trip]",
                "add name to [trip]"},
        Hostile{"name_of_another_type", "[trip]\nname = 7\n", kBad, "'name' has a value of the wrong type",
                "line 2", "words in quotes"},
        Hostile{"latitude_in_words",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = \"37.0\"\nlon = 15\n", kBad,
                "'lat' has a value of the wrong type", "line 5, [[place]]", "numbers stand bare"},
        Hostile{"no_longitude", "[trip]\nname = \"x\"\n[base]\nname = \"b\"\nlat = 37.0\n", kBad,
                "'lon' is missing", "[base]", "add lon to [base]"},
        Hostile{"latitude_not_a_number",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = nan\nlon = 15\n", kBad, "",
                "line 3, [[place]]", ""},
        Hostile{"latitude_beyond_the_pole",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = 90.5\nlon = 15\n", kBad, "90.5",
                "line 3, [[place]]", ""},
        Hostile{"height_in_space",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = 1\nlon = 2\nheight_m = 90000\n", kBad,
                "no height on Earth", "line 7", "metres"},
        Hostile{"height_not_a_number",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = 1\nlon = 2\nheight_m = nan\n", kBad,
                "no height on Earth", "line 7", "metres"},
        Hostile{"ground_of_another_kind",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = 1\nlon = 2\nground = \"lava\"\n", kBad,
                "'ground' is no ground", "line 7", "water, land or snow"},
        Hostile{"town_brighter_than_any",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = 1\nlon = 2\ntown_glow_mcd_m2 = 500\n",
                kBad, "no light of a town", "line 7", "0 to 100"},
        Hostile{"town_darker_than_none",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = 1\nlon = 2\ntown_glow_mcd_m2 = -1\n",
                kBad, "no light of a town", "line 7", "0 to 100"},
        Hostile{"town_not_a_number",
                "[trip]\nname = \"x\"\n[[place]]\nname = \"p\"\nlat = 1\nlon = 2\ntown_glow_mcd_m2 = nan\n",
                kBad, "no light of a town", "line 7", "0 to 100"},
        Hostile{"place_not_a_list", "place = \"here\"\n[trip]\nname = \"x\"\n", kBad, "'place' is not a list",
                "line 1", "[[place]]"},
        Hostile{"place_a_single_table", "[trip]\nname = \"x\"\n[place]\nname = \"p\"\n", kBad,
                "'place' is not a list", "line 3", "[[place]]"},
        Hostile{"trip_not_a_table", "trip = 3\n", kBad, "'trip' is not a table", "line 1", "write [trip]"},
        Hostile{"no_such_date", "[trip]\nname = \"x\"\nstart = \"2025-02-30\"\n", kBad,
                "'start' is not a date", "line 3", "2025-01-29"},
        Hostile{"a_date_with_an_hour", "[trip]\nname = \"x\"\nend = 2025-02-01T06:00:00Z\n", kBad,
                "'end' is not a date", "line 3", "2025-01-29"},
        Hostile{"broken", "[trip\nname = \"x\"\n", ErrorKind::kUnreadable, "", "line 1", "TOML"},
        Hostile{"a_key_twice", "[trip]\nname = \"x\"\nname = \"y\"\n", ErrorKind::kUnreadable, "", "line 3",
                "TOML"},
        Hostile{"no_text_at_all", "\x80\xff\x01", ErrorKind::kUnreadable, "", "line 1", "TOML"},
        Hostile{"endless_nesting", "[trip]\nname = [[[[[[[[[[[[[[[[[[[[[[[[", ErrorKind::kUnreadable, "",
                "line 2", "TOML"}),
    [](const auto& hostile) { return std::string(hostile.param.name); });

TEST(Config, IsReadWhole) {
    const Config config =
        parse_config("trip = \"trips/ionian.toml\"\nclass = \"fair\"\nstarts_for_one = 4.5\n",
                     "home/config.toml")
            .value();
    EXPECT_EQ(config.trip, std::filesystem::path("home/trips/ionian.toml"));
    EXPECT_EQ(config.outcome_class, "fair");
    EXPECT_EQ(config.starts_for_one, 4.5);
}

TEST(Config, MayBeEmpty) {
    EXPECT_TRUE(parse_config("", "config.toml"));
}

TEST(Config, WithAnUnknownKeyIsRefused) {
    const auto config = parse_config("class = \"fair\"\nstarts = 3\n", "config.toml");
    ASSERT_FALSE(config);
    EXPECT_THAT(config.error().message, HasSubstr("'starts'"));
    EXPECT_THAT(config.error().where, AllOf(HasSubstr("config.toml"), HasSubstr("line 2")));
    EXPECT_THAT(config.error().hint, HasSubstr("starts_for_one"));
}

}  // namespace
}  // namespace gloam::app
