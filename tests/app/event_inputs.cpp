// From typed words to an event: every word may be wrong.
#include "app/event_inputs.hpp"

#include <gmock/gmock.h>

#include "support/folder.hpp"

namespace gloam::app {
namespace {

using test::Folder;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

EventWords good_words() {
    EventWords words;
    words.place = "37.07,15.29";
    words.date = "2025-01-29";
    words.event = "dawn";
    words.zone = "Europe/Rome";
    words.forecast_files = {GLOAM_SOURCE_DIR
                            "/data/weather/gfs-global-1deg-2025012900-f006-tcdc-profile.grib2"};
    return words;
}

Error refusal(const EventWords& words, const Surroundings& surroundings = {}) {
    const auto inputs = gather_inputs(words, surroundings);
    return inputs ? Error{ErrorKind::kInternal, "was taken", {}, {}} : inputs.error();
}

constexpr const char* kTrip =
    "[trip]\nname = \"t\"\nzone = \"Europe/Rome\"\n[[place]]\nname = \"Salt Steps\"\nlat = 37.07\nlon = "
    "15.29\n"
    "height_m = 4\n[[place]]\nname = \"Far East\"\nlat = 37.07\nlon = 15.29\nzone = \"Asia/Tokyo\"\n";

TEST(EventInputs, HoldEverythingThatAnEventNeeds) {
    const auto inputs = gather_inputs(good_words(), {}).value();
    EXPECT_EQ(inputs.place.zone.name(), "Europe/Rome");
    EXPECT_EQ(inputs.place.observer.height.metres, 0.0);
    EXPECT_EQ(inputs.half_day.kind, astro::EventKind::kDawn);
    EXPECT_EQ(inputs.layers.members.size(), 1U);
    EXPECT_EQ(inputs.request().run_time, inputs.forecast.run_time);
}

TEST(EventInputs, SayThatSeaLevelIsTaken) {
    EXPECT_THAT(gather_inputs(good_words(), {}).value().place.notes,
                Contains("height not given: sea level taken"));
    EventWords words = good_words();
    words.place = "37.07,15.29,12";
    EXPECT_THAT(gather_inputs(words, {}).value().place.notes, Not(Contains(HasSubstr("sea level"))));
}

TEST(EventInputs, TakeTheZoneOfTheNearestTownAndSaySo) {
    const Folder folder;
    Surroundings surroundings;
    surroundings.cities = folder.with(
        "towns.txt",
        "1\tSiracusa\t\t\t37.075\t15.287\tP\tPPL\tIT\t\t\t\t\t\t1\t\t1\tEurope/Rome\t2020-01-01\n");
    EventWords words = good_words();
    words.zone.clear();
    const auto inputs = gather_inputs(words, surroundings).value();
    EXPECT_EQ(inputs.place.zone.name(), "Europe/Rome");
    EXPECT_THAT(inputs.place.notes, Contains(HasSubstr("zone taken from Siracusa, ")));
}

TEST(EventInputs, WithoutTheTableOfTownsAskForAZone) {
    const Folder folder;
    Surroundings surroundings;
    surroundings.cities = folder / "none.txt";
    EventWords words = good_words();
    words.zone.clear();
    EXPECT_EQ(refusal(words, surroundings).kind, ErrorKind::kNotFound);
    EXPECT_THAT(refusal(words, surroundings).hint, HasSubstr("--zone"));
}

TEST(EventInputs, FindAPlaceOfTheTripByName) {
    const Folder folder;
    EventWords words = good_words();
    words.trip = folder.with("trip.toml", kTrip).string();
    words.place = "Salt Steps";
    words.zone.clear();
    const auto inputs = gather_inputs(words, {}).value();
    EXPECT_EQ(inputs.place.name, "Salt Steps");
    EXPECT_EQ(inputs.place.observer.height.metres, 4.0);
    EXPECT_EQ(inputs.place.zone.name(), "Europe/Rome");
}

TEST(EventInputs, PreferTheAskedZoneToThePlacesAndThePlacesToTheTrips) {
    const Folder folder;
    EventWords words = good_words();
    words.trip = folder.with("trip.toml", kTrip).string();
    words.place = "Far East";
    EXPECT_EQ(gather_inputs(words, {}).value().place.zone.name(), "Europe/Rome");
    words.zone.clear();
    EXPECT_EQ(gather_inputs(words, {}).value().place.zone.name(), "Asia/Tokyo");
}

TEST(EventInputs, NameThePlacesOfTheTripWhereOneIsUnknown) {
    const Folder folder;
    EventWords words = good_words();
    words.trip = folder.with("trip.toml", kTrip).string();
    words.place = "Pepper Steps";
    EXPECT_EQ(refusal(words).kind, ErrorKind::kNotFound);
    EXPECT_EQ(refusal(words).where, "--place");
    EXPECT_THAT(refusal(words).hint, HasSubstr("Salt Steps, Far East"));
}

TEST(EventInputs, ReadTheSettingsAndTheTripTheyName) {
    const Folder folder;
    folder.with("gloam/config.toml", "trip = \"trip.toml\"\nstarts_for_one = 5\n");
    folder.with("gloam/trip.toml", kTrip);
    Surroundings surroundings;
    surroundings.config_home = folder / "";
    EventWords words = good_words();
    words.place = "Salt Steps";
    const auto inputs = gather_inputs(words, surroundings).value();
    EXPECT_EQ(inputs.config.starts_for_one, 5.0);
    EXPECT_EQ(inputs.trip->name, "t");
}

TEST(EventInputs, DoWithoutSettingsThatAreNotThere) {
    const Folder folder;
    Surroundings surroundings;
    surroundings.config_home = folder / "nowhere";
    EXPECT_THAT(gather_inputs(good_words(), surroundings).value().place.notes,
                Not(Contains(HasSubstr("no settings"))));
}

TEST(EventInputs, SayThatNoSettingsWereReadWhereThereIsNoHome) {
    EXPECT_THAT(gather_inputs(good_words(), {}).value().place.notes, Contains(HasSubstr("no settings read")));
}

TEST(EventInputs, NeedSettingsThatWereAskedFor) {
    const Folder folder;
    EventWords words = good_words();
    words.config_file = (folder / "none.toml").string();
    EXPECT_EQ(refusal(words).kind, ErrorKind::kNotFound);
    EXPECT_EQ(refusal(words).where, words.config_file);
}

TEST(EventInputs, RefuseADateThatDoesNotExist) {
    EventWords words = good_words();
    words.date = "2025-02-30";
    EXPECT_EQ(refusal(words).kind, ErrorKind::kBadInput);
    EXPECT_THAT(to_text(refusal(words)), HasSubstr("2025-02-30"));
}

TEST(EventInputs, RefuseAnotherEvent) {
    EventWords words = good_words();
    words.event = "noon\x1b[2J";
    EXPECT_EQ(refusal(words).kind, ErrorKind::kBadInput);
    EXPECT_EQ(refusal(words).where, "--event");
    EXPECT_THAT(refusal(words).message, HasSubstr("'noon?[2J'"));  // nothing that moves a terminal's cursor
}

TEST(EventInputs, RefuseANameWithoutATrip) {
    EventWords words = good_words();
    words.place = "Salt Steps";
    EXPECT_EQ(refusal(words).where, "--place");
    EXPECT_THAT(refusal(words).hint, HasSubstr("--trip"));
}

TEST(EventInputs, RefuseAnUnknownZone) {
    EventWords words = good_words();
    words.zone = "Europe/Roma";
    EXPECT_EQ(refusal(words).kind, ErrorKind::kNotFound);
    EXPECT_THAT(to_text(refusal(words)), HasSubstr("Europe/Rome"));
}

TEST(EventInputs, RefuseAForecastThatIsNotThere) {
    const Folder folder;
    EventWords words = good_words();
    words.forecast_files = {(folder / "none.grib2").string()};
    EXPECT_THAT(to_text(refusal(words)), HasSubstr("none.grib2"));
}

}  // namespace
}  // namespace gloam::app
