#include "geo/position.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <string>

namespace gloam::geo {
namespace {

TEST(Position, ReadsLatitudeLongitudeAndHeight) {
    const auto plain = parse_position("37.07,15.29").value();
    EXPECT_DOUBLE_EQ(plain.at.lat_deg, 37.07);
    EXPECT_DOUBLE_EQ(plain.at.lon_deg, 15.29);
    EXPECT_FALSE(plain.height);
    const auto high = parse_position(" -43.5 , +172.6 , 120 ").value();
    EXPECT_DOUBLE_EQ(high.at.lat_deg, -43.5);
    EXPECT_DOUBLE_EQ(high.at.lon_deg, 172.6);
    EXPECT_EQ(high.height, HeightMsl{120.0});
}

TEST(Position, AZeroHeightIsAHeight) {
    EXPECT_TRUE(parse_position("0,0,0").value().height.has_value());
}

class HostileText : public ::testing::TestWithParam<const char*> {};

TEST_P(HostileText, IsRefusedAsAPosition) {
    const auto parsed = parse_position(GetParam());
    ASSERT_FALSE(parsed);
    EXPECT_EQ(parsed.error().kind, ErrorKind::kBadInput);
    EXPECT_FALSE(parsed.error().hint.empty());
}

INSTANTIATE_TEST_SUITE_P(, HostileText,
                         ::testing::Values("", " ", ",", ",,", "1", "1,", ",1", "1,2,", "1,2,3,4", "nan,0",
                                           "0,nan", "inf,0", "0,-inf", "1e999,0", "0,1e400", "0,0,nan",
                                           "0,0,inf", "0,0,1e300", "0,0,9000.1", "0,0,-501", "90.0001,0",
                                           "-91,0", "0,360.5", "0,-361", "37.07,15.29x", "37.07,15.29,120m",
                                           "37.07 15.29", "37,07,15,29", "0x10,0", "--1,0", "+-1,0", "++1,0",
                                           "+,0", "1e,0", "37.07N,15.29E", "\xd7\xa0,\xff",
                                           "37.07\xc2\xb0,15.29", "37.07,15.29\n", "\t1,2", "1;2"),
                         [](const auto& text) { return "Number" + std::to_string(text.index); });

TEST(Position, HostileBytesReachTheMessageOnlyAsQuestionMarks) {
    const auto parsed = parse_position("\xff\x01,\xc3\xa4");
    EXPECT_EQ(parsed.error().message, "'\?\?,\?\?' is not a position");
    const auto huge = parse_position(std::string(1'000'000, '9'));
    EXPECT_LT(huge.error().message.size(), 100U);
}

TEST(Position, EveryByteOfALongTextMayBeZero) {
    EXPECT_FALSE(parse_position(std::string_view("1,2\0", 4)));
    EXPECT_FALSE(parse_position(std::string_view("\0\0\0", 3)));
}

TEST(Position, LongitudesAreWrappedIntoTheHalfOpenTurn) {
    EXPECT_DOUBLE_EQ(make_lat_lon(0.0, 180.0)->lon_deg, -180.0);
    EXPECT_DOUBLE_EQ(make_lat_lon(0.0, -180.0)->lon_deg, -180.0);
    EXPECT_DOUBLE_EQ(make_lat_lon(0.0, 190.0)->lon_deg, -170.0);
    EXPECT_DOUBLE_EQ(make_lat_lon(0.0, -190.0)->lon_deg, 170.0);
    EXPECT_DOUBLE_EQ(make_lat_lon(0.0, 360.0)->lon_deg, 0.0);
    EXPECT_DOUBLE_EQ(make_lat_lon(0.0, -360.0)->lon_deg, 0.0);
    EXPECT_EQ(make_lat_lon(0.0, 179.9)->lon_deg, 179.9) << "a longitude in range keeps every bit";
}

TEST(Position, PolesAreInAndNothingBeyondThem) {
    EXPECT_TRUE(make_lat_lon(90.0, 0.0));
    EXPECT_TRUE(make_lat_lon(-90.0, 0.0));
    EXPECT_FALSE(make_lat_lon(std::nextafter(90.0, 91.0), 0.0));
    constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_FALSE(make_lat_lon(kNan, 0.0));
    EXPECT_FALSE(make_lat_lon(0.0, kNan));
    EXPECT_FALSE(make_lat_lon(0.0, std::numeric_limits<double>::infinity()));
}

TEST(Position, PrintsHemispheresAndNeverMinusZero) {
    EXPECT_EQ(to_text({37.07, 15.29}), "37.0700 N 15.2900 E");
    EXPECT_EQ(to_text({-43.53, -172.6}), "43.5300 S 172.6000 W");
    EXPECT_EQ(to_text({-0.00001, -0.00001}), "0.0000 N 0.0000 E");
}

TEST(CompassPoint, NamesTheNearestOfSixteen) {
    EXPECT_EQ(compass_point(Azimuth::degrees(0.0)), "north");
    EXPECT_EQ(compass_point(Azimuth::degrees(112.5)), "east-south-east");
    EXPECT_EQ(compass_point(Azimuth::degrees(225.0)), "south-west");
    EXPECT_EQ(compass_point(Azimuth::degrees(292.5)), "west-north-west");
    EXPECT_EQ(compass_point(Azimuth::degrees(11.2)), "north");
    EXPECT_EQ(compass_point(Azimuth::degrees(11.3)), "north-north-east");
    EXPECT_EQ(compass_point(Azimuth::degrees(348.7)), "north-north-west");
    EXPECT_EQ(compass_point(Azimuth::degrees(348.8)), "north");
    EXPECT_EQ(compass_point(Azimuth::degrees(359.999)), "north");
}

}  // namespace
}  // namespace gloam::geo
