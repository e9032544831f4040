// Which of two skies is better, from GRIB bytes to odds. Every forecast here is synthetic: an ensemble of
// five whose members all say the same, so that nothing but the asked difference decides.
#include <gtest/gtest.h>

#include "outlook/cloud_layers.hpp"
#include "sky/panorama.hpp"
#include "support/equator_dawn.hpp"

namespace gloam {
namespace {

using outlook::EventOutlook;
using synthetic::between_km;
using synthetic::Deck;
using synthetic::everywhere;
using synthetic::kAt1km;
using synthetic::kAt4km;
using synthetic::kAt6km;
using synthetic::kAt9km;
using synthetic::up_to_km;

using Decks = std::vector<Deck>;

EventOutlook outlook_of(const Decks& decks) {
    EventOutlook outlook = synthetic::look_out_on(
        synthetic::dawn_file({.step_minutes = {synthetic::kTwilightOnly}, .members = 5}, decks));
    for (const auto& member : outlook.members) {
        for (const auto& strength : member.strengths) {
            EXPECT_GE(strength.value, 0.0);
            EXPECT_LE(strength.value, 100.0);
        }
    }
    return outlook;
}

double strength_of(const Decks& decks) {
    return outlook_of(decks).after.median;
}

const Decks kClear{};
const Decks kLowOvercast{{kAt1km, everywhere(1.0)}};

/// Cloud that leaves no way for the light from 60 km up-sun onwards.
Decks shut(Decks decks) {
    decks.push_back({synthetic::kUsualLevels_hpa, between_km(60.0, 1000.0, 1.0)});
    return decks;
}

struct Case {
    const char* name;
    Decks decks;
};

class SyntheticGap : public ::testing::TestWithParam<Case> {};

TEST_P(SyntheticGap, ShutUpSunTakesAnySkyNearTheLast) {
    const double last = strength_of(kLowOvercast);
    const double open = strength_of(GetParam().decks);
    const double closed = strength_of(shut(GetParam().decks));
    EXPECT_LT(closed - last, 0.25 * (open - last));
    EXPECT_LT(closed, outlook::class_limit(outlook::OutcomeClass::kSlight));
}

INSTANTIATE_TEST_SUITE_P(, SyntheticGap,
                         ::testing::Values(Case{"clear", kClear},
                                           Case{"high_canopy", {{kAt9km, up_to_km(300.0, 1.0)}}},
                                           Case{"half_high", {{kAt9km, up_to_km(300.0, 0.5)}}},
                                           Case{"half_at_6_km", {{kAt6km, up_to_km(200.0, 0.5)}}},
                                           Case{"half_at_4_km", {{kAt4km, up_to_km(150.0, 0.5)}}}),
                         [](const auto& one) { return std::string(one.param.name); });

class SyntheticEdge : public ::testing::TestWithParam<int> {};

TEST_P(SyntheticEdge, OfAHighCanopyIsBetterThanClearSkyAndThatBetterThanLowOvercast) {
    const auto canopy = outlook_of({{kAt9km, up_to_km(GetParam(), 1.0)}});
    const auto clear = outlook_of(kClear);
    const auto overcast = outlook_of(kLowOvercast);
    EXPECT_GT(canopy.after.median, clear.after.median);
    EXPECT_GT(clear.after.median, overcast.after.median);
    EXPECT_GT(canopy.odds.good, clear.odds.good);
    EXPECT_GT(clear.odds.good, overcast.odds.good);
}

INSTANTIATE_TEST_SUITE_P(, SyntheticEdge, ::testing::Values(100, 200, 300, 400),
                         [](const auto& edge) { return std::to_string(edge.param) + "_km"; });

TEST(SyntheticCanopy, WithoutAnEdgeIsNoBetterThanLowOvercastIsByMuch) {
    EXPECT_LT(strength_of({{kAt9km, everywhere(1.0)}}), outlook::class_limit(outlook::OutcomeClass::kSlight));
}

TEST(SyntheticVeil, ThatIsThinAndHighBeatsThickLowCloud) {
    EXPECT_GT(strength_of({{kAt9km, up_to_km(300.0, 0.5)}}), strength_of({{kAt1km, up_to_km(300.0, 0.9)}}));
    EXPECT_GT(strength_of({{kAt9km, up_to_km(300.0, 0.5)}}), strength_of({{kAt1km, up_to_km(300.0, 0.5)}}));
}

class SyntheticBrokenCloud : public ::testing::TestWithParam<int> {};

TEST_P(SyntheticBrokenCloud, WithASlotIsBetterAtSixKilometresThanAtFour) {
    const double cover = GetParam() / 100.0;
    const auto with_slot = [cover](double along_km) {
        return along_km > 100.0 && along_km < 400.0 ? 0.0 : cover;
    };
    EXPECT_GT(strength_of({{kAt6km, with_slot}}), strength_of({{kAt4km, with_slot}}));
}

INSTANTIATE_TEST_SUITE_P(, SyntheticBrokenCloud, ::testing::Values(30, 50, 70),
                         [](const auto& cover) { return std::to_string(cover.param) + "_percent"; });

/// The forecast has no aerosol yet: the cloud comes from GRIB bytes, the air is given to the painter.
class SyntheticAir : public ::testing::Test {
  protected:
    static double strength_in(const sky::Atmosphere& atmosphere) {
        const auto layers =
            synthetic::layers_in(synthetic::dawn_file({}, Decks{{kAt9km, up_to_km(250.0, 1.0)}}));
        const auto request = synthetic::equator_dawn();
        const auto moments = outlook::moments_of(request.observer, request.half_day).value();
        const sky::Air air(synthetic::tables(), atmosphere);
        const sky::SkyPainter painter(air, 0.0, sky::PanoramaGrid::standard());
        double best = 0.0;
        for (const outlook::Moment& moment : moments) {
            if (outlook::is_after(moment.sun.elevation)) {
                const auto path =
                    sample_light_path(layers, 0, request.observer.at, moment.azimuth, moment.instant, {})
                        .value();
                const auto clouds = sky::CloudField(outlook::cloud_layers(path, {}, {}));
                best = std::max(best, sky::colour_strength(painter.paint(clouds, moment.sun)).value);
            }
        }
        return best;
    }
};

TEST_F(SyntheticAir, WithLowHazeIsWorse) {
    EXPECT_LT(strength_in({.aerosol_depth_550 = 0.25}), strength_in({.aerosol_depth_550 = 0.10}));
    EXPECT_LT(strength_in({.aerosol_depth_550 = 0.50}), strength_in({.aerosol_depth_550 = 0.25}));
}

TEST_F(SyntheticAir, WithDustIsWorse) {
    EXPECT_LT(strength_in({.dust_depth_550 = 0.3}), strength_in({}));
}

}  // namespace
}  // namespace gloam
