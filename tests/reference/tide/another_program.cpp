// Heights, high and low waters of three ports against another program fed with the same constants, M1 and M3
// left out: it counts p twice in M1 and turns M3 by half a turn (data/tides/README.md). honolulu_2010.cpp
// judges both.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "reference/tide/tide_file.hpp"

namespace gloam::tide {
namespace {

struct Value {
    Instant instant;
    double height_m = 0.0;
    std::string kind;
};

std::vector<Value> values_of(const std::string& port) {
    const TextTable table = test::read_tide_table("another_program.csv");
    const auto heights_m = table.numbers("height_m").value();
    std::vector<Value> values;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const auto& row = table.rows[i];
        if (row[0] == port) {
            values.push_back({parse_rfc3339(row[1]).value(), heights_m[i], row[3]});
        }
    }
    return values;
}

HarmonicPort port_without_m1_and_m3(const std::string& name) {
    HarmonicPort port = test::read_harmonic_port(name);
    std::erase_if(port.constituents, [](const Constituent& constituent) {
        return constituent.wave.name == "M1" || constituent.wave.name == "M3";
    });
    return port;
}

/// Minutes from a turn of the other program to the nearest of ours of the same kind.
double minutes_off(const HarmonicPort& port, const Value& turn) {
    constexpr Duration kAbout = std::chrono::hours(3);
    const TideTable table = predicted_table(port, {turn.instant - kAbout, turn.instant + kAbout});
    double least_min = 180.0;
    for (const TideRow& row : table.rows) {
        if (row.kind == (turn.kind == "high" ? TideKind::kHigh : TideKind::kLow)) {
            least_min = std::fmin(least_min, std::abs(hours_between(turn.instant, row.instant)) * 60.0);
        }
    }
    return least_min;
}

class AnotherProgram : public testing::TestWithParam<const char*> {};

TEST_P(AnotherProgram, FindsTheSameHeightsWithinTwoCentimetres) {
    const HarmonicPort port = port_without_m1_and_m3(GetParam());
    double worst_m = 0.0;
    for (const Value& value : values_of(GetParam())) {
        worst_m = std::fmax(worst_m, std::abs(predicted_height(port, value.instant).metres - value.height_m));
    }
    fmt::print("{}: heights differ by up to {:.4f} m\n", GetParam(), worst_m);
    EXPECT_LT(worst_m, 0.02);
}

TEST_P(AnotherProgram, FindsTheSameTurnsWithinThreeMinutes) {
    const HarmonicPort port = port_without_m1_and_m3(GetParam());
    double worst_min = 0.0;
    int turns = 0;
    for (const Value& value : values_of(GetParam())) {
        if (value.kind != "height") {
            worst_min = std::fmax(worst_min, minutes_off(port, value));
            ++turns;
        }
    }
    fmt::print("{}: {} turns differ by up to {:.2f} min\n", GetParam(), turns, worst_min);
    EXPECT_GT(turns, 90);
    EXPECT_LT(worst_min, 3.0);
}

INSTANTIATE_TEST_SUITE_P(At, AnotherProgram, testing::Values("honolulu", "san_francisco", "newlyn"),
                         [](const auto& one) { return std::string(one.param); });

}  // namespace
}  // namespace gloam::tide
