// What a file is, from its first bytes.
#include "weather/file_kind.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <fstream>
#include <random>
#include <string>
#include <vector>

namespace gloam::weather {
namespace {

using ::testing::HasSubstr;
using std::string_literals::operator""s;

FileKind kind(const std::string& head) {
    return kind_of(std::as_bytes(std::span(head)));
}

/// The beginning of a file.
struct Head {
    const char* name;
    std::string bytes;
    FileKind kind;
};

class KindOfFile : public ::testing::TestWithParam<Head> {};

TEST_P(KindOfFile, IsKnownByItsBeginning) {
    EXPECT_EQ(kind(GetParam().bytes), GetParam().kind);
}

// As real files begin, cut short; netCDF but the fourth, xz, zstd and zip after their formats' definitions.
INSTANTIATE_TEST_SUITE_P(
    , KindOfFile,
    ::testing::Values(
        Head{"Grib2", "GRIB\0\0\0\2\0\0\0\0\0\1\x07\xac"s, FileKind::kGrib},
        Head{"Grib1", "GRIB\0\x12\x34\1\0\0\x1c\2"s, FileKind::kGrib},
        Head{"GribCutWithinItsHead", "GRIB\0"s, FileKind::kGrib},
        Head{"GribAfterABulletinHeading", "\1\r\r\n123\r\r\nYTQA50 KWBC 011200\r\r\nGRIB\0\x12\x34\1"s,
             FileKind::kGrib},
        Head{"GribAfterJunk", std::string(60'000, '\xa5') + "GRIB\0\0\0\2"s, FileKind::kGrib},
        Head{"Json", R"({"type": "Feature", "geometry": {"type": "Point"}})", FileKind::kJson},
        Head{"JsonList", R"([{"icaoId": "KSGF"}])", FileKind::kJson},
        Head{"JsonAfterSpaceAndMark", "\xef\xbb\xbf \r\n\t{\"type\": 1}", FileKind::kJson},
        Head{"JsonWithUtcOffset", R"({"latitude": 51.2, "utc_offset_seconds": 7200})", FileKind::kJson},
        Head{"Index", "1:0:d=2023110400:PRMSL:mean sea level:anl:\n2:995976:d=2023110400:CLWMR:",
             FileKind::kGribIndex},
        Head{"IndexOfFields", "1.1:0:d=2023110400:UGRD:10 m above ground:anl:\n", FileKind::kGribIndex},
        Head{"IndexInJsonLines",
             "{\"date\": \"20240101\", \"param\": \"r\", \"_offset\": 0, \"_length\": 609046}\n{\"date\"",
             FileKind::kGribIndex},
        Head{"Bufr3", "BUFR\0\0\xdc\3\0\0\x12\0"s, FileKind::kBufr},
        Head{"Bufr4AfterAHeading", "0000564200\1\r\r\n336\r\r\nISMD10 EDZW 161200\r\r\nBUFR\0\x15\xe7\4"s,
             FileKind::kBufr},
        Head{"NetCdf4", "\x89HDF\r\n\x1a\n\0\0\0\0"s, FileKind::kNetCdf},
        Head{"NetCdfClassic", "CDF\1\0\0\0\1"s, FileKind::kNetCdf},
        Head{"NetCdf64BitOffset", "CDF\2\0\0\0\1"s, FileKind::kNetCdf},
        Head{"NetCdf64BitData", "CDF\5\0\0\0\0"s, FileKind::kNetCdf},
        Head{"Bzip2", "BZh91AY&SY"s, FileKind::kBzip2},
        Head{"Gzip", "\x1f\x8b\x08\0\0\0\0\0"s, FileKind::kGzip},
        Head{"Xz", "\xfd\x37zXZ\0\0\4"s, FileKind::kXz},
        Head{"Zstd", "\x28\xb5\x2f\xfd\x04\0"s, FileKind::kZstd},
        Head{"Zip", "PK\3\4\x14\0"s, FileKind::kZip},
        Head{"ZipWithAGribInIt", "PK\3\4\x14\0a.gribGRIB\0\0\0\2"s, FileKind::kZip},
        Head{"EmptyZip", "PK\5\6\0\0"s, FileKind::kZip},
        Head{"WebPage", "\n<!DOCTYPE html>\n<html lang=\"en\"><p>429: too many requests for GRIB files",
             FileKind::kMarkup},
        Head{"BareWebPage", "<HTML><BODY>Forbidden</BODY></HTML>", FileKind::kMarkup},
        Head{"XmlAnswer", "<?xml version=\"1.0\"?><Error><Code>AccessDenied</Code></Error>",
             FileKind::kMarkup},
        Head{"Metar", "METAR SVMG 011200Z /////KT 9000 DZ OVC010 27/25 Q1013 TEMPO=", FileKind::kAirportText},
        Head{"Bulletin", "\1\r\r\n309\r\r\nSAVN24 SVMG 011200\r\r\nMETAR SVMG 011200Z 9000=\r\r\n\3",
             FileKind::kAirportText},
        Head{"MetarInATable", "raw_text,station_id\nKSGF 280553Z 32010KT 10SM,KSGF\n",
             FileKind::kAirportText},
        Head{"CommaTable", "# note, one\nwmo_block,time_utc,total\n3,2018-11-02,88\n", FileKind::kTable},
        Head{"SemicolonTable", "AGGH;91;520;Honiara;;5\r\nAGGL;91;541;Santa Cruz;;5\r\n", FileKind::kTable},
        Head{"Text", "Too many requests, wait a minute.\n", FileKind::kText},
        Head{"OneLetter", "G", FileKind::kText}, Head{"SpacesOnly", "  \n", FileKind::kText},
        Head{"Colons", ":::\n", FileKind::kText}, Head{"Empty", "", FileKind::kEmpty},
        Head{"OneByte", "\0"s, FileKind::kUnknown},
        Head{"Zeros", std::string(100'000, '\0'), FileKind::kUnknown},
        Head{"ATextWithAZeroInIt", "{\"type\": \0}"s, FileKind::kUnknown},
        Head{"Png", "\x89PNG\r\n\x1a\n\0\0\0\r"s, FileKind::kUnknown}),
    [](const auto& head) { return std::string(head.param.name); });

TEST(FileKind, OnlyTheHeadIsLookedAt) {
    EXPECT_EQ(kind(std::string(kKindHead, '\xa5') + "GRIB\0\0\0\2"s), kind(std::string(kKindHead, '\xa5')));
}

TEST(FileKind, OfRandomBytesIsOneOfThem) {
    std::mt19937 random(3);
    for (int i = 0; i < 2000; ++i) {
        std::string head(random() % 80, '\0');
        std::ranges::generate(head, [&random] { return static_cast<char>(random() % 256); });
        const FileKind found = kind(head);
        EXPECT_GE(found, FileKind::kGrib);
        EXPECT_LE(found, FileKind::kUnknown);
    }
}

TEST(FileKind, WordsSayWhatItIsAndWhatToDo) {
    EXPECT_THAT(words_of(FileKind::kNetCdf).sentence, HasSubstr("netCDF"));
    EXPECT_THAT(words_of(FileKind::kNetCdf).remedy, HasSubstr("as GRIB"));
    EXPECT_THAT(words_of(FileKind::kBzip2).remedy, HasSubstr("bunzip2"));
    EXPECT_THAT(words_of(FileKind::kMarkup).sentence, HasSubstr("web page"));
    EXPECT_THAT(words_of(FileKind::kGribIndex).remedy, HasSubstr("the file itself"));
    EXPECT_THAT(words_of(FileKind::kUnknown).sentence, HasSubstr("no GRIB message"));
}

TEST(FileKind, OnlyTheKindsThatAreReadHaveNoRemedy) {
    for (int kind = 0; kind <= static_cast<int>(FileKind::kUnknown); ++kind) {
        const auto& words = words_of(static_cast<FileKind>(kind));
        const bool is_read = kind <= static_cast<int>(FileKind::kJson);
        EXPECT_EQ(words.sentence.empty(), is_read) << kind;
        EXPECT_EQ(words.remedy.empty(), is_read) << kind;
    }
}

}  // namespace
}  // namespace gloam::weather
