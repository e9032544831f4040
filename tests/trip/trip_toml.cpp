#include "trip/trip_toml.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>

#include "support/full_trip.hpp"

namespace gloam::trip {
namespace {

using namespace std::chrono_literals;
using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsSupersetOf;

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
    EXPECT_EQ(trip.group.size, 6);
    EXPECT_EQ(trip.group.starts_for_one_dawn, 3.0);
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

TEST(TripFile, TellsOfTheTripAndItsGroup) {
    const Trip trip = parse_trip(test::kFullTrip, "trip.toml").value();
    EXPECT_EQ(trip.paid, true);
    EXPECT_EQ(trip.emergency_number, "112");
    EXPECT_EQ(trip.plan_holder, "the night porter, \"Ivo\" \\ room 2");
    EXPECT_EQ(trip.group.size, 6);
    EXPECT_EQ(trip.group.minimum_party, 2);
    EXPECT_EQ(trip.group.starts_for_one_dawn, 3.0);
    EXPECT_EQ(trip.group.starts_for_one_dusk, 7.5);
    EXPECT_EQ(trip.group.starts_left, 2);
    EXPECT_EQ(trip.group.slowest_kmh, 3.5);
    EXPECT_EQ(trip.driver.least_rest_h, 10.0);
    EXPECT_EQ(trip.driver.longest_span_h, 16.0);
    EXPECT_EQ(trip.kitchen.breakfast, 8h + 30min);
    EXPECT_EQ(trip.kitchen.latest_change, 21h);
}

TEST(TripFile, TellsOfTheGuests) {
    const Trip trip = parse_trip(test::kFullTrip, "trip.toml").value();
    ASSERT_EQ(trip.group.guests.size(), 2U);
    const Guest& first = trip.group.guests[0];
    EXPECT_EQ(first.name, "Guest One");
    EXPECT_EQ(first.starts_for_one_dawn, 1.0);
    EXPECT_EQ(first.starts_for_one_dusk, 2.0);
    EXPECT_TRUE(first.opted_out);
    EXPECT_EQ(first.finder, Finder::kOptical);
    EXPECT_EQ(first.longest_lens_mm, 400.0);
    EXPECT_TRUE(first.needs_thought);
    EXPECT_TRUE(first.drone);
    const Guest& second = trip.group.guests[1];
    EXPECT_EQ(second.starts_for_one_dawn, std::nullopt);
    EXPECT_EQ(second.finder, Finder::kUnknown);
    EXPECT_FALSE(second.opted_out || second.needs_thought || second.drone);
}

TEST(TripFile, TellsOfTheLinksOfTheTimeChain) {
    const Chain chain = parse_trip(test::kFullTrip, "trip.toml").value().chain;
    EXPECT_EQ(chain.colour_before_sun_min, 45.0);
    EXPECT_EQ(chain.settle_min, 10.0);
    EXPECT_EQ(chain.dark_factor, 1.5);
    EXPECT_EQ(chain.load_min, 11.0);
    EXPECT_EQ(chain.wake_to_door_min, 30.0);
    EXPECT_EQ(chain.look_before_wake_min, 20.0);
}

TEST(TripFile, TellsWhatAPlaceIsLike) {
    const Place place = parse_trip(test::kFullTrip, "trip.toml").value().places.at(0);
    EXPECT_EQ(place.water, Water::kSea);
    ASSERT_EQ(place.sheltered.size(), 1U);
    EXPECT_EQ(place.sheltered[0].from, Azimuth::degrees(250.0));
    EXPECT_EQ(place.sheltered[0].to, Azimuth::degrees(20.0));
    EXPECT_EQ(place.phone_cover, "at the car park only");
    EXPECT_THAT(place.tags, ElementsAre(PlaceTag::kCoast, PlaceTag::kCliff));
    EXPECT_EQ(place.permission->text, "The harbour office, for paid groups up to eight");
    EXPECT_EQ(to_text(place.permission->date), "2025-01-10");
    ASSERT_EQ(place.notes.size(), 1U);
    EXPECT_EQ(place.notes[0].text, "The third step is missing");
    ASSERT_EQ(place.tide_closes.size(), 2U);
    EXPECT_EQ(to_text(place.tide_closes[0]), "2025-01-29 06:40");
    EXPECT_EQ(to_text(place.tide_closes[1]), "2025-01-30 07:25");
}

TEST(TripFile, TellsOfStandsAndSubjects) {
    const Place place = parse_trip(test::kFullTrip, "trip.toml").value().places.at(0);
    ASSERT_EQ(place.stands.size(), 1U);
    EXPECT_EQ(place.stands[0].name, "Lower step");
    EXPECT_EQ(place.stands[0].at.lat_deg, 37.0701);
    EXPECT_EQ(place.stands[0].height, HeightMsl{3.0});
    EXPECT_EQ(place.stands[0].view, Azimuth::degrees(115.0));
    EXPECT_EQ(place.stands[0].tripods, 4);
    ASSERT_EQ(place.subjects.size(), 1U);
    EXPECT_EQ(place.subjects[0].name, "The stack");
    EXPECT_EQ(place.subjects[0].at.lon_deg, 15.31);
    EXPECT_EQ(place.subjects[0].base, HeightMsl{0.0});
    EXPECT_EQ(place.subjects[0].top, HeightMsl{22.0});
    EXPECT_EQ(place.subjects[0].width_m, 9.0);
}

TEST(TripFile, TellsTheWayInItsOrder) {
    const Place place = parse_trip(test::kFullTrip, "trip.toml").value().places.at(0);
    ASSERT_EQ(place.access.size(), 2U);
    EXPECT_EQ(place.access[0].kind, LegKind::kDrive);
    EXPECT_EQ(place.access[0].name, "coast road");
    EXPECT_EQ(place.access[0].minutes, 30.0);
    EXPECT_FALSE(place.access[0].never_in_the_dark);
    EXPECT_EQ(place.access[1].kind, LegKind::kWalk);
    EXPECT_EQ(place.access[1].distance_m, 1200.0);
    EXPECT_EQ(place.access[1].climb_m, 60.0);
    EXPECT_EQ(place.access[1].descent_m, 20.0);
    EXPECT_TRUE(place.access[1].never_in_the_dark);
    EXPECT_EQ(to_text(*place.access[1].last_walked), "2025-01-12");
    ASSERT_EQ(place.gates.size(), 1U);
    EXPECT_EQ(place.gates[0].opens, 5h);
    EXPECT_EQ(place.gates[0].closes, 23h);
}

TEST(TripFile, IsPrintedAsItWasRead) {
    for (const std::string_view text : {kWhole, test::kFullTrip}) {
        const std::string printed = to_toml(parse_trip(text, "trip.toml").value());
        EXPECT_EQ(to_toml(parse_trip(printed, "printed.toml").value()), printed);
    }
}

/// "key = value" of each line, in whatever order: what a file says, comments and quotes of dates aside.
std::vector<std::string> said(std::string_view toml) {
    std::vector<std::string> lines;
    std::istringstream stream{std::string(toml)};
    for (std::string line; std::getline(stream, line);) {
        if (line.find('=') != std::string::npos) {
            lines.push_back(line.substr(0, line.find(" =")));
        }
    }
    std::ranges::sort(lines);
    return lines;
}

TEST(TripFile, PrintsEveryKeyOfAFullFile) {
    const std::vector<std::string> keys = said(to_toml(parse_trip(test::kFullTrip, "trip.toml").value()));
    EXPECT_THAT(keys, IsSupersetOf(said(test::kFullTrip)));
}

TEST(TripFile, PrintsUnitsInComments) {
    const std::string printed = to_toml(parse_trip(test::kFullTrip, "trip.toml").value());
    EXPECT_THAT(printed, HasSubstr("height_m = 4  # above the sea"));
    EXPECT_THAT(printed, HasSubstr("view_deg = 115  # from true north, clockwise"));
}

TEST(TripFile, OfTheDemoIsRead) {
    std::ifstream file(GLOAM_SOURCE_DIR "/data/demo/ionian.toml");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    EXPECT_EQ(parse_trip(text, "ionian.toml").value().places.size(), 2U);
}

TEST(TripFile, NeedsNoMoreThanAName) {
    const Trip trip = parse_trip("[trip]\nname = \"x\"\n", "trip.toml").value();
    EXPECT_EQ(trip.base, std::nullopt);
    EXPECT_EQ(trip.group.starts_for_one_dawn, std::nullopt);
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
#define kTrip "[trip]\nname = \"x\"\n"
#define kPlace kTrip "[[place]]\nname = \"p\"\nlat = 1\nlon = 2\n"

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
                "'ground' is no ground", "line 7", "one of water, land, snow"},
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
        Hostile{"end_before_start", kTrip "start = 2025-02-02\nend = 2025-02-01\n", kBad,
                "'end' is before start", "line 4, [trip]", "the last"},
        Hostile{"group_of_millions", kTrip "[group]\nsize = 1000001\n", kBad, "'size' is no number of people",
                "line 4, [group]", "0 to 1000"},
        Hostile{"guests_of_one_name", kTrip "[[group.guest]]\nname = \"a\"\n[[group.guest]]\nname = \"a\"\n",
                kBad, "holds the name 'a' twice", "[group]", "a name of its own"},
        Hostile{"guest_without_a_name", kTrip "[[group.guest]]\nfinder = \"optical\"\n", kBad,
                "'name' is missing", "[[group.guest]]", "add name"},
        Hostile{"finder_of_glass", kTrip "[[group.guest]]\nname = \"a\"\nfinder = \"glass\"\n", kBad,
                "'finder' is no finder", "line 5", "optical"},
        Hostile{"breakfast_at_25", kTrip "[kitchen]\nbreakfast = \"25:00\"\n", kBad,
                "'breakfast' is not a time of day", "line 4, [kitchen]", "06:40"},
        Hostile{"breakfast_to_the_second", kTrip "[kitchen]\nbreakfast = 08:00:01\n", kBad,
                "'breakfast' is not a time of day", "line 4", "06:40"},
        Hostile{"dark_factor_below_one", kTrip "[chain]\ndark_factor = 0.5\n", kBad,
                "'dark_factor' is no factor", "line 4, [chain]", "1 to 10"},
        Hostile{"rest_without_end", kTrip "[driver]\nleast_rest_h = inf\n", kBad, "'least_rest_h' is no span",
                "line 4, [driver]", "0 to 24"},
        Hostile{"places_of_one_name", kPlace "[[place]]\nname = \"p\"\nlat = 3\nlon = 4\n", kBad,
                "'place' holds the name 'p' twice", "line 3", "a name of its own"},
        Hostile{"stand_without_a_position", kPlace "[[place.stand]]\nname = \"s\"\n", kBad,
                "'lat' is missing", "line 7, [[place.stand]]", "add lat to [[place.stand]]"},
        Hostile{"stand_with_a_wrong_key", kPlace "[[place.stand]]\nname = \"s\"\nheight = 3\n", kBad,
                "'height' is not a key", "line 9, [[place.stand]]", "height_m"},
        Hostile{"stand_looking_nowhere",
                kPlace "[[place.stand]]\nname = \"s\"\nlat = 1\nlon = 2\nview_deg = 400\n", kBad,
                "'view_deg' is no bearing", "line 11", "true north"},
        Hostile{"stand_for_no_tripod",
                kPlace "[[place.stand]]\nname = \"s\"\nlat = 1\nlon = 2\ntripods = 0\n", kBad,
                "'tripods' is no number", "line 11", "1 to 1000"},
        Hostile{"subject_upside_down",
                kPlace
                "[[place.subject]]\nname = \"s\"\nlat = 1\nlon = 2\nbase_height_m = 9\ntop_height_m = 3\n",
                kBad, "'top_height_m' is not above", "line 12", "above sea level"},
        Hostile{"drive_without_minutes", kPlace "[[place.access]]\nkind = \"drive\"\ndistance_m = 9\n", kBad,
                "'minutes' is missing", "line 7, [[place.access]]", "add minutes"},
        Hostile{"walk_of_no_length", kPlace "[[place.access]]\nkind = \"walk\"\n", kBad,
                "'minutes' is missing", "line 7, [[place.access]]", "distance_m"},
        Hostile{"way_by_air", kPlace "[[place.access]]\nkind = \"flight\"\nminutes = 9\n", kBad,
                "'kind' is no part of a way", "line 8", "drive, walk"},
        Hostile{"gate_that_never_closes", kPlace "[[place.gate]]\nname = \"g\"\nopens = \"05:00\"\n", kBad,
                "'closes' is missing", "line 7, [[place.gate]]", "both opens and closes"},
        Hostile{"gate_open_for_no_time",
                kPlace "[[place.gate]]\nname = \"g\"\nopens = \"05:00\"\ncloses = \"05:00\"\n", kBad,
                "'closes' is the time", "line 10", "always open"},
        Hostile{"note_without_a_date", kPlace "[[place.note]]\ntext = \"t\"\n", kBad, "'date' is missing",
                "line 7, [[place.note]]", "add date"},
        Hostile{"note_that_says_nothing", kPlace "[[place.note]]\ntext = \"\"\ndate = 2025-01-01\n", kBad,
                "'text' is empty", "line 8", "say something"},
        Hostile{"tag_unknown", kPlace "tags = [\"coast\", \"lava\"]\n", kBad, "'tags' holds 'lava'", "line 7",
                "coast, cliff"},
        Hostile{"tag_twice", kPlace "tags = [\"coast\", \"coast\"]\n", kBad, "'tags' holds a tag twice",
                "line 7", "once"},
        Hostile{"tags_not_a_list", kPlace "tags = \"coast\"\n", kBad, "'tags' is not a list", "line 7",
                "square brackets"},
        Hostile{"tide_without_a_date", kPlace "tide_closes = [\"06:40\"]\n", kBad,
                "'tide_closes' is not a date and time", "line 7", "2025-01-29 06:40"},
        Hostile{"tide_with_an_offset", kPlace "tide_closes = [2025-01-29T06:40:00Z]\n", kBad,
                "'tide_closes' is not a date and time", "line 7", "2025-01-29 06:40"},
        Hostile{"shelter_from_half_the_wind", kPlace "sheltered = [{ from_deg = 10 }]\n", kBad,
                "'to_deg' is missing", "line 7, [[place.sheltered]]", "add to_deg"},
        Hostile{"endless_nesting", "[trip]\nname = [[[[[[[[[[[[[[[[[[[[[[[[", ErrorKind::kUnreadable, "",
                "line 2", "TOML"}),
    [](const auto& hostile) { return std::string(hostile.param.name); });

}  // namespace
}  // namespace gloam::trip
