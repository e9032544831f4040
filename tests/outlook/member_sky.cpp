// One member's sky at one instant, for synthetic cloud over the equator's dawn.
#include "outlook/member_sky.hpp"

#include <gmock/gmock.h>

#include <cmath>

#include "sky/colour_strength.hpp"
#include "support/equator_dawn.hpp"

namespace gloam::outlook {
namespace {

using synthetic::Deck;
using ::testing::HasSubstr;

const Deck kCanopy{synthetic::kAt9km, synthetic::up_to_km(150.0, 0.8)};

weather::LayeredForecast canopy() {
    return synthetic::layers_in(synthetic::dawn_file({}, {kCanopy}));
}

Result<MemberSkies> skies_of(const weather::LayeredForecast& forecast, std::size_t index) {
    return MemberSkies::of(synthetic::tables(), forecast, synthetic::equator_dawn(), index,
                           sky::PanoramaGrid::standard());
}

// Strength of the skies that look_out() read, moment by moment. Below -6 deg the moon, which the outlook
// leaves out, may pale the sky.
TEST(MemberSkies, AreTheSkiesThatTheOutlookReads) {
    const auto forecast = canopy();
    const auto outlook = synthetic::outlook_of(forecast);
    for (const std::size_t member : {std::size_t{0}, std::size_t{17}}) {
        const MemberSkies skies = skies_of(forecast, member).value();
        for (std::size_t i = 0; i < outlook.moments.size(); i += 9) {
            if (outlook.moments[i].sun.elevation.degrees() < -6.0) {
                continue;
            }
            const SeenSky seen = skies.at(outlook.moments[i].instant).value();
            // The outlook mixes its skies, a picture is painted: docs/sky.md, section 14.
            EXPECT_NEAR(colour_strength(seen.panorama).value, outlook.members[member].strengths[i].value, 1.0)
                << "member " << member << ", moment " << i;
        }
    }
}

TEST(MemberSkies, KnowWhereTheSunStands) {
    const auto forecast = canopy();
    const SeenSky seen = skies_of(forecast, 0).value().at(synthetic::at_sunrise()).value();
    EXPECT_NEAR(seen.sun.azimuth.degrees(), 90.0, 0.5);
    EXPECT_NEAR(seen.sun.state.elevation.degrees(), -0.8, 0.3);
    EXPECT_GT(seen.sun_seen.angle.degrees(), seen.sun.state.elevation.degrees() + 0.4)
        << "lifted by refraction";
}

// At this hour a black sky would be a hole in the picture.
TEST(MemberSkies, AreNotBlackBeforeTheFirstTwilight) {
    const auto forecast = canopy();
    const SeenSky seen =
        skies_of(forecast, 0).value().at(synthetic::at_sunrise() - std::chrono::minutes(66)).value();
    EXPECT_LT(seen.sun.state.elevation.degrees(), -16.0);
    for (const sky::PanoramaCell& cell : seen.panorama.cells) {
        EXPECT_GT(cell.mean().y, 2e-5);
    }
}

TEST(MemberSkies, HaveADiscWhileTheSunIsUpAndNoneAfterIt) {
    const auto forecast = canopy();
    const MemberSkies skies = skies_of(forecast, 0).value();
    EXPECT_GT(skies.at(synthetic::at_sunrise() + std::chrono::minutes(12)).value().sun_disc.y, 1e6);
    EXPECT_EQ(skies.at(synthetic::at_sunrise() - std::chrono::minutes(12)).value().sun_disc.y, 0.0);
}

TEST(MemberSkies, ThatAreNotThereAreRefused) {
    const auto forecast = canopy();
    const auto skies = skies_of(forecast, 31);
    ASSERT_FALSE(skies);
    EXPECT_EQ(skies.error().kind, ErrorKind::kNotFound);
    EXPECT_THAT(skies.error().message, HasSubstr("no member 32"));
    EXPECT_THAT(skies.error().hint, HasSubstr("1 to 31"));
}

TEST(MemberSkies, WithTheSunTooHighOrTooLowAreRefused) {
    const auto forecast = canopy();
    const MemberSkies skies = skies_of(forecast, 0).value();
    for (const int hours : {-4, 4}) {
        const auto seen = skies.at(synthetic::at_sunrise() + std::chrono::hours(hours));
        ASSERT_FALSE(seen);
        EXPECT_EQ(seen.error().kind, ErrorKind::kOutOfDomain);
        EXPECT_THAT(seen.error().hint, HasSubstr("nearer the event"));
    }
}

TEST(MemberSkies, AtAnHourThatTheForecastDoesNotServeAreRefused) {
    const auto forecast =
        synthetic::layers_in(synthetic::dawn_file({.step_minutes = {synthetic::kTwilightOnly}}, {kCanopy}));
    const auto seen = skies_of(forecast, 0).value().at(synthetic::at_sunrise() + std::chrono::minutes(40));
    ASSERT_FALSE(seen);
    EXPECT_THAT(seen.error().message, HasSubstr("does not serve"));
}

}  // namespace
}  // namespace gloam::outlook
