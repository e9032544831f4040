// Cloud light of src/sky against the Monte Carlo tracer of broken layers: on the fields that its constants
// were fitted to, and on others. Writes the cloud tables of docs/sky-check.md to the build folder.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <numbers>

#include "reference/montecarlo/cloud_comparison.hpp"

namespace gloam::montecarlo {
namespace {

constexpr unsigned kThreads = 2;

std::vector<CloudPair> compared(const std::vector<CloudCase>& cases, const Looks& looks) {
    constexpr int kPathsPerBatch = 512;
    std::vector<CloudPair> all;
    for (const CloudCase& one : cases) {
        const auto some = compared(one, looks, kPathsPerBatch, kThreads);
        all.insert(all.end(), some.begin(), some.end());
    }
    return all;
}

const std::vector<CloudPair>& fitted() {
    static const auto kPairs = compared(fitted_cases(), kFittedLooks);
    return kPairs;
}
const std::vector<CloudPair>& checked() {
    static const auto kPairs = compared(checked_cases(), kCheckedLooks);
    return kPairs;
}
const std::vector<CloudPair>& fronts() {
    static const auto kPairs = compared(front_cases(), kCheckedLooks);
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
bool high(const CloudPair& pair) {
    return pair.field.starts_with("high");
}
/// Where lit cloud is brilliant: within 45 deg of the sun and up to 30 deg high.
bool in_sun_sector(const CloudPair& pair) {
    return pair.azimuth_deg <= 45.0 && pair.elevation_deg <= 30.0;
}

std::string cells(const std::vector<CloudPair>& pairs, const std::function<bool(const CloudPair&)>& counts) {
    const Spread found = spread(pairs, counts);
    if (found.count == 0) {
        return " 0 | - | - |";
    }
    return fmt::format(" {} | {:+.2f} | {:.2f} |", found.count, found.bias, found.rms);
}

/// Cells of a row of base-lit and of top-lit cases.
std::string both(const std::vector<CloudPair>& pairs, const std::function<bool(const CloudPair&)>& counts) {
    return cells(pairs, [&](const CloudPair& pair) { return counts(pair) && from_below(pair); }) +
           cells(pairs, [&](const CloudPair& pair) { return counts(pair) && from_above(pair); }) + "\n";
}

bool any(const CloudPair&) {
    return true;
}

std::string field_table(const std::vector<CloudCase>& cases, const std::vector<CloudPair>& pairs) {
    std::string table =
        "| field | below: cases | bias | rms | above: cases | bias | rms |\n"
        "| --- | --- | --- | --- | --- | --- | --- |\n";
    for (const CloudCase& one : cases) {
        table += fmt::format("| {} |", one.name) +
                 both(pairs, [&one](const CloudPair& pair) { return pair.field == one.name; });
    }
    table += "| all |" + both(pairs, any);
    for (const bool is_high : {false, true}) {
        table += fmt::format("| {}, within 45 deg of the sun, up to 30 deg |",
                             is_high ? "high" : "low and middle") +
                 both(pairs, [is_high](const CloudPair& pair) {
                     return high(pair) == is_high && in_sun_sector(pair);
                 });
    }
    return table;
}

std::string direction_table() {
    std::string table =
        "| elevation, azimuth | below: cases | bias | rms | above: cases | bias | rms |\n"
        "| --- | --- | --- | --- | --- | --- | --- |\n";
    for (const double elevation_deg : kCheckedLooks.elevations_deg) {
        for (const double azimuth_deg : kCheckedLooks.azimuths_deg) {
            table += fmt::format("| {:g}, {:g} |", elevation_deg, azimuth_deg) +
                     both(checked(), [&](const CloudPair& pair) {
                         return pair.elevation_deg == elevation_deg && pair.azimuth_deg == azimuth_deg;
                     });
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

TEST(CloudCheck, BaseLitCloudMeetsItsTargetOnFieldsThatWereNotFitted) {
    const Spread found = spread(checked(), from_below);
    EXPECT_GT(found.count, 150);
    EXPECT_LT(found.rms, 0.3);
}

TEST(CloudCheck, BaseLitMiddleCloudInTheSunSectorMeetsItsTarget) {
    const Spread found = spread(checked(), [](const CloudPair& pair) {
        return !high(pair) && from_below(pair) && in_sun_sector(pair);
    });
    EXPECT_GT(found.count, 30);
    EXPECT_LT(found.rms, 0.3);
}

TEST(CloudCheck, CloudLitFromAboveMeetsItsTargetOnFieldsThatWereNotFitted) {
    const Spread found = spread(checked(), from_above);
    EXPECT_GT(found.count, 200);
    EXPECT_LT(found.rms, 0.5);
}

// Other constants hardly fit better: those of the program are those of the fit.
TEST(CloudCheck, ConstantsFromBelowAreThoseOfTheFit) {
    using sky::kLightFromBelow;
    const auto constants = [](std::span<const double> v) {
        return sky::LightFromBelow{v[0], kLightFromBelow.most_even, v[1], v[2], v[3], v[4], v[5]};
    };
    const auto best =
        least({kLightFromBelow.even, kLightFromBelow.forward, kLightFromBelow.forward_asymmetry,
               kLightFromBelow.backward, kLightFromBelow.backward_asymmetry, kLightFromBelow.blur},
              [&](std::span<const double> v) { return spread_with(fitted(), constants(v)).rms; });
    std::printf("from below: %.3f %.3f %.3f %.3f %.3f %.3f fits best\n", best[0], best[1], best[2], best[3],
                best[4], best[5]);
    EXPECT_LT(spread_with(fitted(), kLightFromBelow).rms, spread_with(fitted(), constants(best)).rms + 0.01);
}

TEST(CloudCheck, ConstantsFromAboveAreThoseOfTheFit) {
    using sky::kLightFromAbove;
    const auto constants = [](std::span<const double> v) { return sky::LightFromAbove{v[0], v[1], v[2]}; };
    const auto best =
        least({kLightFromAbove.even, kLightFromAbove.skin, kLightFromAbove.skin_asymmetry},
              [&](std::span<const double> v) { return spread_with(fitted(), constants(v)).rms; });
    std::printf("from above: %.3f %.3f %.3f fits best\n", best[0], best[1], best[2]);
    EXPECT_LT(spread_with(fitted(), kLightFromAbove).rms, spread_with(fitted(), constants(best)).rms + 0.01);
}

TEST(CloudCheck, FrontRowsAreWithinAFactorOfThree) {
    EXPECT_LT(spread(fronts(), any).rms, std::log(3.0));
}

TEST(CloudCheck, OvercastIsWithinAFifthAtEverySun) {
    for (const Deck& deck : decks()) {
        for (const Overcast& one : deck.lights) {
            EXPECT_NEAR(one.fast_cd_m2 / one.under_deck_cd_m2, 1.0, 0.2) << deck.name << one.sun_deg;
        }
    }
}

TEST(CloudCheck, WritesItsReport) {
    std::string report = "## Fields that were fitted\n\n" + field_table(fitted_cases(), fitted()) +
                         "\n## Fields that were not\n\n" + field_table(checked_cases(), checked()) +
                         "\n## Front rows\n\n" + field_table(front_cases(), fronts()) +
                         "\n## By direction, fields that were not fitted\n\n" + direction_table();
    for (const Deck& deck : decks()) {
        report += fmt::format("\n## Under a {}\n\n", deck.name) + overcast_table(deck);
    }
    std::ofstream file(CLOUD_CHECK_REPORT);
    file << report;
    ASSERT_TRUE(file.flush()) << CLOUD_CHECK_REPORT;
}

}  // namespace
}  // namespace gloam::montecarlo
