#include "trip/gpx.hpp"

#include <gmock/gmock.h>

#include <fmt/format.h>

#include "support/full_trip.hpp"
#include "trip/trip_toml.hpp"

namespace gloam::trip {
namespace {

using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

Gpx gpx(const std::string& inside) {
    return parse_gpx("<gpx>" + inside + "</gpx>", "made.gpx").value();
}

std::string waypoint(const char* name) {
    return fmt::format("<wpt lat=\"1\" lon=\"2\"><name>{}</name></wpt>", name);
}

/// A track of points one after the other on the meridian, `heights` apart by 0.001 deg (111 m).
std::string track(const std::vector<double>& heights_m) {
    std::string text = "<trk><name>made</name><trkseg>";
    for (std::size_t i = 0; i < heights_m.size(); ++i) {
        text += fmt::format("<trkpt lat=\"{:.3f}\" lon=\"0\"><ele>{}</ele></trkpt>",
                            0.001 * static_cast<double>(i), heights_m[i]);
    }
    return text + "</trkseg></trk>";
}

TEST(Gpx, HoldsWaypointsWithNameAndHeight) {
    const Gpx read =
        gpx("<wpt lat=\" +37.07 \" lon=\"-344.71\"><ele>\n4.5 </ele><name> Salt\nSteps </name></wpt>");
    ASSERT_EQ(read.points.size(), 1U);
    EXPECT_EQ(read.points[0].name, "Salt Steps");
    EXPECT_EQ(read.points[0].at.lat_deg, 37.07);
    EXPECT_NEAR(read.points[0].at.lon_deg, 15.29, 1e-12);
    EXPECT_EQ(read.points[0].height, HeightMsl{4.5});
}

TEST(Gpx, HasNoHeightWhereItIsNoneOnEarth) {
    for (const char* ele : {"", "x", "nan", "9001", "-501", "1e400"}) {
        EXPECT_EQ(gpx(fmt::format("<wpt lat=\"1\" lon=\"2\"><ele>{}</ele></wpt>", ele)).points.at(0).height,
                  std::nullopt)
            << ele;
    }
}

TEST(Gpx, LeavesOutPointsWithoutCoordinatesAndCountsThem) {
    const Gpx read =
        gpx("<wpt lat=\"undefined\" lon=\"2\"/><wpt lat=\"91\" lon=\"2\"/><wpt lon=\"2\"/>" + waypoint("a"));
    EXPECT_THAT(read.points, ElementsAre(Field(&GpxPoint::name, "a")));
    EXPECT_EQ(read.refused, 3U);
}

TEST(Gpx, TakesNamedPointsOfARouteWhereThereAreNoWaypoints) {
    const std::string route =
        "<rte><rtept lat=\"1\" lon=\"2\"><name>turn</name></rtept><rtept lat=\"1\" lon=\"3\"/></rte>";
    EXPECT_THAT(gpx(route).points, ElementsAre(Field(&GpxPoint::name, "turn")));
    EXPECT_THAT(gpx(route + waypoint("a")).points, ElementsAre(Field(&GpxPoint::name, "a")));
}

TEST(Gpx, PacesATrackAlongTheGround) {
    const Gpx read = gpx(track({0.0, 0.0, 0.0}));
    ASSERT_EQ(read.lines.size(), 1U);
    EXPECT_EQ(read.lines[0].name, "made");
    EXPECT_EQ(read.lines[0].points, 3U);
    EXPECT_EQ(read.lines[0].length_m, 221.0);  // 2 x 110.574 m at the equator
}

TEST(Gpx, DoesNotPaceTheGapBetweenSegments) {
    const Gpx read =
        gpx("<trk><trkseg><trkpt lat=\"0\" lon=\"0\"/><trkpt lat=\"0.001\" lon=\"0\"/></trkseg>"
            "<trkseg><trkpt lat=\"1\" lon=\"0\"/><trkpt lat=\"1.001\" lon=\"0\"/></trkseg></trk>");
    EXPECT_EQ(read.lines.at(0).length_m, 221.0);
}

TEST(Gpx, CountsClimbAndDescentApart) {
    const GpxLine line = gpx(track({0.0, 30.0, 60.0, 40.0})).lines.at(0);
    EXPECT_EQ(line.climb_m, 60.0);
    EXPECT_EQ(line.descent_m, 20.0);
}

TEST(Gpx, DoesNotCountTheWaveringOfAReceiverAsHills) {
    std::vector<double> wavering;
    for (int i = 0; i < 100; ++i) {
        wavering.push_back(i % 2 == 0 ? 100.0 : 109.0);
    }
    EXPECT_EQ(gpx(track(wavering)).lines.at(0).climb_m, 0.0);
}

TEST(Gpx, KnowsNoClimbWhereAPointHasNoHeight) {
    const Gpx read =
        gpx("<rte><rtept lat=\"0\" lon=\"0\"><ele>1</ele></rtept><rtept lat=\"0\" lon=\"1\"/></rte>");
    EXPECT_EQ(read.lines.at(0).climb_m, std::nullopt);
    EXPECT_EQ(read.lines.at(0).descent_m, std::nullopt);
}

TEST(Gpx, MayStandInUtf16AndLatin1) {
    const std::u16string wide = u"\xfeff<gpx><wpt lat=\"1\" lon=\"2\"><name>\u00d8y</name></wpt></gpx>";
    const std::string bytes(reinterpret_cast<const char*>(wide.data()), 2 * wide.size());
    EXPECT_EQ(parse_gpx(bytes, "wide.gpx").value().points.at(0).name, "\xc3\x98y");
    const std::string latin =
        "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><gpx><wpt lat=\"1\" "
        "lon=\"2\"><name>\xd8y</name></wpt></gpx>";
    EXPECT_EQ(parse_gpx(latin, "latin.gpx").value().points.at(0).name, "\xc3\x98y");
}

TEST(Gpx, LeavesOutOfANameWhatIsNoText) {
    EXPECT_EQ(gpx(waypoint("a\xff\x80"
                           "b\x01"
                           "c"))
                  .points.at(0)
                  .name,
              "ab c");
}

TEST(Gpx, DoesNotExpandEntities) {
    std::string bomb = "<!DOCTYPE gpx [<!ENTITY a0 \"ha\">";
    for (int i = 1; i < 30; ++i) {
        bomb += fmt::format("<!ENTITY a{0} \"&a{1};&a{1};&a{1};&a{1};&a{1};&a{1};&a{1};&a{1};\">", i, i - 1);
    }
    bomb += "<!ENTITY file SYSTEM \"file:///etc/passwd\">]><gpx>" + waypoint("&a29;&file;") + "</gpx>";
    EXPECT_EQ(parse_gpx(bomb, "bomb.gpx").value().points.at(0).name, "&a29;&file;");
}

TEST(Gpx, OfAMillionPointsIsRead) {
    std::string text = "<gpx><trk><trkseg>";
    for (int i = 0; i < 1'000'000; ++i) {
        text += i % 2 == 0 ? "<trkpt lat=\"0\" lon=\"0\"/>" : "<trkpt lat=\"0\" lon=\"0.00001\"/>";
    }
    const Gpx read = parse_gpx(text + "</trkseg></trk></gpx>", "long.gpx").value();
    EXPECT_EQ(read.lines.at(0).points, 1'000'000U);
    EXPECT_NEAR(read.lines.at(0).length_m, 999'999 * 1.113194908, 1.0);
}

/// A file that must be refused, and what its error must say.
struct BadGpx {
    const char* name;
    std::string text;
    const char* message;
};

void PrintTo(const BadGpx& bad, std::ostream* stream) {
    *stream << bad.name;
}

class BadGpxFile : public ::testing::TestWithParam<BadGpx> {};

TEST_P(BadGpxFile, IsRefusedWithAReason) {
    const auto read = parse_gpx(GetParam().text, "bad.gpx");
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().kind, ErrorKind::kUnreadable);
    EXPECT_THAT(read.error().message, HasSubstr(GetParam().message));
    EXPECT_EQ(read.error().where, "bad.gpx");
    EXPECT_THAT(read.error().hint, Not(IsEmpty()));
}

std::string repeated(const char* text, int times) {
    std::string all;
    for (int i = 0; i < times; ++i) {
        all += text;
    }
    return all;
}

INSTANTIATE_TEST_SUITE_P(
    , BadGpxFile,
    ::testing::Values(BadGpx{"empty", "", "no sound XML"}, BadGpx{"text", "name = \"x\"", "no sound XML"},
                      BadGpx{"another_xml", "<kml><wpt lat=\"1\" lon=\"2\"/></kml>", "root is not <gpx>"},
                      BadGpx{"cut_off", "<gpx><wpt lat=\"1\" lon=\"2\"><name>a", "no sound XML"},
                      BadGpx{"without_coordinates", "<gpx><wpt/><wpt lat=\"x\" lon=\"y\"/></gpx>",
                             "none of its 2 points"},
                      BadGpx{"nested_without_end", "<gpx>" + repeated("<a>", 1'000'000), "no sound XML"},
                      BadGpx{"zeros", std::string(100, '\0'), "no sound XML"}),
    [](const auto& bad) { return std::string(bad.param.name); });

TEST(Gpx, NestedDeeplyIsReadWithoutHarm) {
    const std::string deep = repeated("<a>", 300'000) + repeated("</a>", 300'000);
    EXPECT_EQ(gpx(deep + waypoint("a")).points.size(), 1U);
}

TEST(GpxOfATrip, HoldsItsPlacesAndStands) {
    const Trip trip = parse_trip(test::kFullTrip, "full.toml").value();
    const Gpx read = parse_gpx(to_gpx(trip), "out.gpx").value();
    EXPECT_THAT(read.points, ElementsAre(Field(&GpxPoint::name, "Salt Steps"),
                                         Field(&GpxPoint::name, "Salt Steps / Lower step")));
    EXPECT_EQ(read.points[1].at.lat_deg, 37.0701);
    EXPECT_EQ(read.points[1].height, HeightMsl{3.0});
}

TEST(GpxOfATrip, MovesNothingWhenItComesBack) {
    Trip trip = parse_trip(test::kFullTrip, "full.toml").value();
    const std::string before = to_toml(trip);
    const GpxMerge merge = add_gpx(trip, parse_gpx(to_gpx(trip), "out.gpx").value(), std::nullopt).value();
    EXPECT_EQ(merge.places_moved, 1U);
    EXPECT_EQ(merge.stands_moved, 1U);
    EXPECT_EQ(to_toml(trip), before);
}

TEST(GpxOfATrip, EscapesNames) {
    Trip trip;
    trip.places.push_back({});
    trip.places[0].name = "<Rock> & \"Roll\"";
    EXPECT_EQ(parse_gpx(to_gpx(trip), "out.gpx").value().points.at(0).name, trip.places[0].name);
}

TEST(GpxIntoATrip, GivesNamesToPointsWithoutOneAndTellsEqualNamesApart) {
    Trip trip;
    const std::string bare = "<wpt lat=\"1\" lon=\"2\"/>";
    ASSERT_TRUE(add_gpx(trip, gpx(bare + waypoint("a") + bare + waypoint("a")), std::nullopt));
    EXPECT_THAT(trip.places, ElementsAre(Field(&Place::name, "point 1"), Field(&Place::name, "a"),
                                         Field(&Place::name, "point 2"), Field(&Place::name, "a (2)")));
}

TEST(GpxIntoATrip, MovesAKnownPlaceAndLeavesTheRestOfIt) {
    Trip trip = parse_trip(test::kFullTrip, "full.toml").value();
    const GpxMerge merge = add_gpx(trip, gpx(waypoint("Salt Steps")), std::nullopt).value();
    EXPECT_EQ(merge.places_moved, 1U);
    EXPECT_EQ(trip.places[0].at.lat_deg, 1.0);
    EXPECT_EQ(trip.places[0].height, HeightMsl{4.0});
    EXPECT_EQ(trip.places[0].stands.size(), 1U);
}

TEST(GpxIntoAPlace, MakesStandsAndAWalk) {
    Trip trip = parse_trip(test::kFullTrip, "full.toml").value();
    const GpxMerge merge =
        add_gpx(trip, gpx(waypoint("Upper step") + track({0.0, 30.0})), "Salt Steps").value();
    EXPECT_EQ(merge.stands_new, 1U);
    EXPECT_EQ(merge.walks, 1U);
    EXPECT_EQ(trip.places[0].stands.back().name, "Upper step");
    EXPECT_EQ(trip.places[0].access.back().name, "made");
    EXPECT_EQ(trip.places[0].access.back().distance_m, 111.0);
    EXPECT_EQ(trip.places[0].access.back().climb_m, 30.0);
}

TEST(GpxIntoAPlace, BringsAKnownWalkUpToDate) {
    Trip trip = parse_trip(test::kFullTrip, "full.toml").value();
    ASSERT_TRUE(add_gpx(trip, gpx(track({0.0, 30.0})), "Salt Steps"));
    ASSERT_TRUE(add_gpx(trip, gpx(track({0.0, 30.0, 60.0})), "Salt Steps"));
    EXPECT_EQ(trip.places[0].access.size(), 3U);
    EXPECT_EQ(trip.places[0].access.back().distance_m, 221.0);
}

TEST(GpxIntoAPlace, NeedsThePlace) {
    Trip trip;
    EXPECT_EQ(add_gpx(trip, gpx(waypoint("a")), "Nowhere").error().kind, ErrorKind::kNotFound);
}

TEST(GpxIntoAPlace, TakesNoWalkAcrossACountry) {
    Trip trip = parse_trip(test::kFullTrip, "full.toml").value();
    const std::string far =
        "<rte><rtept lat=\"0\" lon=\"0\"/><rtept lat=\"1\" lon=\"0\"/></rte>" + waypoint("Upper step");
    EXPECT_THAT(add_gpx(trip, gpx(far), "Salt Steps").error().message, HasSubstr("any walk"));
    EXPECT_EQ(trip.places[0].stands.size(), 1U);
}

TEST(GpxIntoATrip, WithoutWaypointsTellsHowToUseATrack) {
    Trip trip;
    EXPECT_THAT(add_gpx(trip, gpx(track({0.0, 1.0})), std::nullopt).error().hint, HasSubstr("--place"));
    EXPECT_THAT(add_gpx(trip, gpx(""), std::nullopt).error().message, HasSubstr("no waypoints"));
}

}  // namespace
}  // namespace gloam::trip
