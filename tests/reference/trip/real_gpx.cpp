// Files of real devices against counts and lengths found apart from the program: elements counted with
// Python's xml.etree, lengths by Vincenty's inverse formula (Survey Review 23, 88, 1975) on WGS 84, rounded
// to the metre.
#include <gmock/gmock.h>

#include <fstream>
#include <iterator>

#include "trip/gpx.hpp"

namespace gloam::trip {
namespace {

using ::testing::HasSubstr;

struct RealGpx {
    const char* name;
    std::size_t points;
    std::vector<double> lengths_m;
    std::vector<std::size_t> line_points;
};

void PrintTo(const RealGpx& file, std::ostream* stream) {
    *stream << file.name;
}

Result<Gpx> read(const char* name) {
    std::ifstream file(std::string(GLOAM_SOURCE_DIR "/data/gpx/") + name + ".gpx", std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    return parse_gpx(text, name);
}

class RealGpxFile : public ::testing::TestWithParam<RealGpx> {};

TEST_P(RealGpxFile, HoldsWhatWasCountedInIt) {
    const Gpx gpx = read(GetParam().name).value();
    EXPECT_EQ(gpx.points.size(), GetParam().points);
    EXPECT_EQ(gpx.refused, 0U);
    ASSERT_EQ(gpx.lines.size(), GetParam().lengths_m.size());
    for (std::size_t i = 0; i < gpx.lines.size(); ++i) {
        EXPECT_EQ(gpx.lines[i].points, GetParam().line_points[i]);
        EXPECT_EQ(gpx.lines[i].length_m, GetParam().lengths_m[i]);
    }
}

INSTANTIATE_TEST_SUITE_P(
    , RealGpxFile,
    ::testing::Values(
        RealGpx{"all_fields_10_time_without_zone", 2, {310987, 154792}, {3, 2}},
        RealGpx{"all_fields_11_time_without_zone", 2, {310987, 154792}, {3, 2}},
        RealGpx{"alps_route_gpx10", 0, {5031}, {120}}, RealGpx{"alps_time_1901_gpx10", 0, {2701}, {184}},
        RealGpx{"alpstein_track_no_namespace", 0, {243}, {9}}, RealGpx{"apple_watch_track", 0, {68}, {44}},
        RealGpx{"bom_no_encoding", 1, {}, {}}, RealGpx{"bom_no_namespace", 1, {}, {}},
        RealGpx{"empty_ele", 0, {0}, {2}}, RealGpx{"empty_track_cdata_trademark", 0, {}, {}},
        RealGpx{"etrex10_track", 0, {17503}, {479}},
        RealGpx{"garmin_extensions_offset_time", 2, {936731, 917267}, {3, 4}},
        RealGpx{"garmin_tpx_waypoint", 1, {}, {}},
        RealGpx{"lake_track_no_creator", 7, {1914, 873, 30, 1352, 32, 29, 347}, {173, 52, 2, 44, 2, 2, 21}},
        RealGpx{"mapsource_multitrack", 0, {524, 1205, 19}, {38, 65, 14}},
        RealGpx{"no_namespace_crlf_device", 0, {19}, {3}}, RealGpx{"offset_time_fraction", 0, {2}, {2}},
        RealGpx{"opencpn_route", 16, {62719}, {16}},
        RealGpx{"track_without_times", 7, {1914, 873, 30, 1352, 32, 29, 347}, {173, 52, 2, 44, 2, 2, 21}},
        RealGpx{"watch_cdata_ns3_prefix", 0, {2}, {2}}, RealGpx{"waypoints_no_namespace", 40, {}, {}},
        RealGpx{"wpt_element_order_wrong", 1, {}, {}}),
    [](const auto& file) { return std::string(file.param.name); });

TEST(GpxFileOfADevice, WithUndefinedCoordinatesIsRefused) {
    const auto gpx = read("bad_undefined_coordinates");
    ASSERT_FALSE(gpx);
    EXPECT_THAT(gpx.error().message, HasSubstr("none of its 5 points has coordinates"));
}

/// A climb cannot be less than the highest point stands above the lowest of a way up, nor much more on a
/// steady one.
TEST(GpxFileOfADevice, OfAClimbKnowsTheClimb) {
    const GpxLine climb = read("alps_route_gpx10").value().lines.at(0);
    EXPECT_GE(*climb.climb_m + 10.0, 997.0);  // highest less lowest elevation of the file
    EXPECT_LE(*climb.climb_m, 1.1 * 997.0);
}

TEST(GpxFileOfADevice, InUnicodeKeepsItsLetters) {
    EXPECT_EQ(read("bom_no_encoding").value().points.at(0).name, "bom noencoding \xc5\x91");
}

}  // namespace
}  // namespace gloam::trip
