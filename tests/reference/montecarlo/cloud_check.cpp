// Cloud light of src/sky against the Monte Carlo tracer of broken layers, on fields that nothing was fitted
// to. Writes the cloud tables of docs/sky-check.md to the build folder.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <numbers>

#include "reference/montecarlo/cloud_comparison.hpp"

namespace gloam::montecarlo {
namespace {

constexpr unsigned kThreads = 2;

const std::vector<CloudPair>& pairs() {
    static const std::vector<CloudPair> kPairs = [] {
        std::vector<CloudPair> all;
        for (const CloudCase& one : cloud_cases()) {
            const auto some = compared(one, 128, kThreads);
            all.insert(all.end(), some.begin(), some.end());
        }
        return all;
    }();
    return kPairs;
}

struct Deck {
    const char* name;
    std::vector<Overcast> lights;
};
const std::vector<Deck>& decks() {
    static const std::vector<Deck> kDecks = [] {
        const std::vector<double> suns_deg{5.0, 2.0, 0.0, -1.0, -2.0, -3.0, -4.0, -5.0, -6.0};
        return std::vector<Deck>{
            {"low deck, 1 to 2 km", overcast(sky::CloudClass::kLow, 1.0, 2.0, suns_deg, kThreads)},
            {"middle deck, 4 to 4.6 km", overcast(sky::CloudClass::kMiddle, 4.0, 4.6, suns_deg, kThreads)}};
    }();
    return kDecks;
}

bool from_below(const CloudPair& pair) {
    return pair.lit == Lit::kFromBelow;
}
bool from_above(const CloudPair& pair) {
    return pair.lit == Lit::kFromAbove;
}
bool middle(const CloudPair& pair) {
    return pair.field.starts_with("middle");
}
/// Where lit cloud is brilliant: within 45 deg of the sun and up to 30 deg high.
bool in_sun_sector(const CloudPair& pair) {
    return pair.azimuth_deg <= 45.0 && pair.elevation_deg <= 30.0;
}

std::string cells(const std::function<bool(const CloudPair&)>& counts) {
    const Spread found = spread(pairs(), counts);
    if (found.count == 0) {
        return " 0 | - | - |";
    }
    return fmt::format(" {} | {:+.2f} | {:.2f} |", found.count, found.bias, found.rms);
}

std::string field_table() {
    std::string table =
        "| field | below: cases | bias | rms | above: cases | bias | rms |\n"
        "| --- | --- | --- | --- | --- | --- | --- |\n";
    for (const CloudCase& one : cloud_cases()) {
        const auto of = [&one](const CloudPair& pair) { return pair.field == one.name; };
        table += fmt::format("| {} |", one.name) +
                 cells([&](const CloudPair& pair) { return of(pair) && from_below(pair); }) +
                 cells([&](const CloudPair& pair) { return of(pair) && from_above(pair); }) + "\n";
    }
    table += "| all |" + cells(from_below) + cells(from_above) + "\n";
    for (const bool is_middle : {true, false}) {
        const auto in_sector = [is_middle](const CloudPair& pair) {
            return middle(pair) == is_middle && in_sun_sector(pair);
        };
        table +=
            fmt::format("| {}, within 45 deg of the sun, up to 30 deg |", is_middle ? "middle" : "high") +
            cells([&](const CloudPair& pair) { return in_sector(pair) && from_below(pair); }) +
            cells([&](const CloudPair& pair) { return in_sector(pair) && from_above(pair); }) + "\n";
    }
    return table;
}

std::string direction_table() {
    std::string table =
        "| elevation, azimuth | below: cases | bias | rms | above: cases | bias | rms |\n"
        "| --- | --- | --- | --- | --- | --- | --- |\n";
    for (const double elevation_deg : {6.0, 15.0, 30.0, 60.0}) {
        for (const double azimuth_deg : {0.0, 45.0, 90.0, 180.0}) {
            const auto there = [&](const CloudPair& pair) {
                return pair.elevation_deg == elevation_deg && pair.azimuth_deg == azimuth_deg;
            };
            table += fmt::format("| {:g}, {:g} |", elevation_deg, azimuth_deg) +
                     cells([&](const CloudPair& pair) { return there(pair) && from_below(pair); }) +
                     cells([&](const CloudPair& pair) { return there(pair) && from_above(pair); }) + "\n";
        }
    }
    return table;
}

std::string overcast_table(const Deck& deck) {
    std::string table =
        "| sun | diffuse on deck, lx | noise, % | under deck, MC, cd m-2 | fast/MC | MC under deck over "
        "clear |\n"
        "| --- | --- | --- | --- | --- | --- |\n";
    for (const Overcast& one : deck.lights) {
        table += fmt::format("| {:+g} | {:.3g} | {:.1f} | {:.3g} | {:.2f} | {:.2f} |\n", one.sun_deg,
                             one.on_deck_lx.value, 100.0 * one.on_deck_lx.error / one.on_deck_lx.value,
                             one.under_deck_cd_m2, one.fast_cd_m2 / one.under_deck_cd_m2,
                             one.under_deck_cd_m2 * std::numbers::pi / one.clear_lx);
    }
    return table;
}

TEST(CloudCheck, BaseLitMiddleCloudInTheSunSectorMeetsItsTarget) {
    const Spread found = spread(pairs(), [](const CloudPair& pair) {
        return middle(pair) && from_below(pair) && in_sun_sector(pair);
    });
    EXPECT_GT(found.count, 30);
    EXPECT_LT(found.rms, 0.3);
}

TEST(CloudCheck, OvercastWithTheSunUpIsWithinAQuarter) {
    for (const Deck& deck : decks()) {
        for (const Overcast& one : deck.lights) {
            if (one.sun_deg >= 0.0) {
                EXPECT_NEAR(one.fast_cd_m2 / one.under_deck_cd_m2, 1.0, 0.25) << deck.name << one.sun_deg;
            }
        }
    }
}

TEST(CloudCheck, WritesItsReport) {
    std::string report =
        "## Cloud by field\n\n" + field_table() + "\n## Cloud by direction\n\n" + direction_table();
    for (const Deck& deck : decks()) {
        report += fmt::format("\n## Under a {}\n\n", deck.name) + overcast_table(deck);
    }
    std::ofstream file(CLOUD_CHECK_REPORT);
    file << report;
    ASSERT_TRUE(file.flush()) << CLOUD_CHECK_REPORT;
}

}  // namespace
}  // namespace gloam::montecarlo
