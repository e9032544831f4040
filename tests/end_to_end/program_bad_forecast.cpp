// Damaged synthetic forecasts, given to the built program: each is a message that names file, message, field
// and remedy; nothing is printed on standard output.
#include <gmock/gmock.h>

#include <cmath>
#include <functional>
#include <random>

#include "run_program.hpp"
#include "small_forecast.hpp"

namespace gloam {
namespace {

using synthetic::Bytes;
using test::Folder;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

Bytes text(const char* words) {
    const auto* first = reinterpret_cast<const std::byte*>(words);
    return {first, first + std::char_traits<char>::length(words)};
}

std::size_t message_length() {
    return small_forecast().size() / 6;
}

Bytes first_bytes(std::size_t count) {
    Bytes bytes = small_forecast();
    bytes.resize(count);
    return bytes;
}

/// One octet (counted from 1) of a section of the first message, raised by one.
Bytes raised(int section, std::size_t octet) {
    Bytes bytes = small_forecast();
    std::size_t at = 16;
    while (std::to_integer<int>(bytes[at + 4]) != section) {
        at += std::to_integer<std::size_t>(bytes[at + 2]) * 256 + std::to_integer<std::size_t>(bytes[at + 3]);
    }
    auto& byte = bytes[at + octet - 1];
    byte = static_cast<std::byte>(std::to_integer<int>(byte) + 1);
    return bytes;
}

Bytes without_end_mark() {
    Bytes bytes = small_forecast();
    bytes.back() = std::byte{'8'};
    return bytes;
}

/// The good file, then a message with one value everywhere.
Bytes with_value(double percent, const char* packing = "grid_simple") {
    const Bytes one = synthetic::message(
        {.run_time = synthetic::equator_dawn().run_time,
         .from = std::chrono::minutes(synthetic::kTwilightOnly),
         .to = std::chrono::minutes(synthetic::kTwilightOnly),
         .pressure_pa = 500.0e2,
         .packing = packing},
        [percent](double lat_deg, double) { return std::optional(lat_deg > 50.0 ? percent : 50.0); });
    return synthetic::joined({small_forecast(), one});
}

Bytes of_another_run() {
    const Bytes one = synthetic::message({}, [](double, double) { return std::optional(50.0); });
    return synthetic::joined({small_forecast(), one});
}

Bytes averages_alone() {
    return synthetic::message(
        {.run_time = synthetic::equator_dawn().run_time, .from = std::chrono::minutes(0)},
        [](double, double) { return std::optional(50.0); });
}

struct BadFile {
    const char* name;
    std::function<Bytes()> bytes;
    int exit_code;
    std::vector<const char*> said;
};

void PrintTo(const BadFile& file, std::ostream* stream) {
    *stream << file.name;
}

class ProgramOnABadSyntheticFile : public ::testing::TestWithParam<BadFile> {};

TEST_P(ProgramOnABadSyntheticFile, NamesFileMessageFieldAndRemedyAndPrintsNothingElse) {
    const Folder folder;
    const Outcome run = run_program(folder, call_words(written(folder, GetParam().bytes())));
    EXPECT_EQ(run.exit_code, GetParam().exit_code);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr("synthetic.grib2"));
    EXPECT_THAT(run.err, HasSubstr("\n  "));  // the remedy, on a line of its own
    for (const char* said : GetParam().said) {
        EXPECT_THAT(run.err, HasSubstr(said));
    }
}

INSTANTIATE_TEST_SUITE_P(
    , ProgramOnABadSyntheticFile,
    ::testing::Values(BadFile{"empty", [] { return Bytes{}; }, 4, {"empty"}},
                      BadFile{"no_grib",
                              [] { return text("<html><body>Too many requests</body></html>"); },
                              4,
                              {"a web page"}},
                      BadFile{"cut_in_the_middle_of_a_message",
                              [] { return first_bytes(message_length() * 5 / 2); },
                              4,
                              {"message 3"}},
                      BadFile{"cut_in_the_first_octets", [] { return first_bytes(7); }, 4, {"message 1"}},
                      BadFile{"without_end_mark", without_end_mark, 4, {"message 6", "7777"}},
                      BadFile{"wrong_grid_size", [] { return raised(3, 34); }, 4, {"message 1", "50 x 25"}},
                      BadFile{"cover_of_140_percent",
                              [] { return with_value(140.0); },
                              4,
                              {"message 7", "cloud cover at 500 hPa", "140"}},
                      BadFile{"cover_not_a_number",
                              [] { return with_value(std::nan(""), "grid_ieee"); },
                              4,
                              {"message 7", "cloud cover at 500 hPa"}},
                      BadFile{"of_two_runs", of_another_run, 2, {"message 7"}},
                      BadFile{"averages_alone", averages_alone, 7, {"spans of time", "instantaneous"}}),
    [](const auto& file) { return std::string(file.param.name); });

TEST(ProgramOnASyntheticFileWithFlippedBytes, AnswersOrRefusesButNeverFails) {
    const Bytes good = small_forecast();
    const Folder folder;
    std::mt19937 random(20250320);  // fixed: the same damage in every run
    for (int flip = 0; flip < 20; ++flip) {
        Bytes bytes = good;
        bytes[random() % 6 * message_length() + random() % 200] ^= static_cast<std::byte>(1 + random() % 255);
        const Outcome run = run_program(folder, call_words(written(folder, bytes)));
        EXPECT_THAT(run.exit_code, ::testing::AnyOf(0, 2, 4, 5, 6, 7)) << run.err;
        EXPECT_NE(run.out.empty(), run.err.empty()) << "either an answer or an error";
    }
}

}  // namespace
}  // namespace gloam
