// What decides a sky, on clouds made by hand over the equator's dawn.
#include "outlook/light_verdict.hpp"

#include <gtest/gtest.h>

#include "sky/scene.hpp"
#include "support/equator_dawn.hpp"

namespace gloam::outlook {
namespace {

using test::high_layer;
using test::low_layer;
using test::middle_layer;

const std::vector<Moment>& dawn() {
    static const std::vector<Moment> kMoments = [] {
        const EventRequest request = synthetic::equator_dawn();
        return moments_of(request.observer, request.half_day).value();
    }();
    return kMoments;
}

LightVerdict judge(std::vector<sky::CloudLayer> layers, double viewer_m = 0.0) {
    return judge_light(dawn(), 20, test::default_air().beam, sky::CloudField(std::move(layers)),
                       HeightMsl{viewer_m});
}

double sun_deg(const LightVerdict& verdict) {
    return dawn()[verdict.moment].sun.elevation.degrees();
}

TEST(LightVerdict, OfAHighCanopyWithAnEdgeIsOpen) {
    const LightVerdict verdict = judge({high_layer(1.0, 200.0)});
    EXPECT_EQ(verdict.verdict, Verdict::kOpen);
    EXPECT_EQ(verdict.canvas, 0U);
    EXPECT_EQ(verdict.canvas_base_m, 9000.0);
    EXPECT_NEAR(verdict.canvas_cover, 1.0, 1e-6);
    EXPECT_GT(verdict.open_share, 0.35);
}

TEST(LightVerdict, OfACanopyWithADistantEdgeIsOpenWhenTheRaysHaveGrownLongEnough) {
    const LightVerdict near = judge({high_layer(1.0, 100.0)});
    const LightVerdict far = judge({high_layer(1.0, 350.0)});  // once said to be shut, strength 53 of 100
    EXPECT_EQ(far.verdict, Verdict::kOpen);
    EXPECT_LT(sun_deg(far), sun_deg(near));
    EXPECT_GT(far.reach_m, 350.0e3);
}

TEST(LightVerdict, OfACanopyWithoutAnEdgeIsShutByItself) {
    const LightVerdict verdict = judge({high_layer(1.0)});
    EXPECT_EQ(verdict.verdict, Verdict::kShut);
    EXPECT_EQ(verdict.blocker, verdict.canvas);
    EXPECT_LT(verdict.open_share, 0.01);
}

TEST(LightVerdict, NamesTheCloudThatShutsTheLightAndWhereItStands) {
    auto wall = middle_layer(0.0);
    for (auto& line : wall.cover) {
        for (std::size_t i = 0; i < line.size(); ++i) {
            const double along_m = geo::LightPathGrid::kFirst_m + 5.0e3 * static_cast<double>(i);
            line[i] = along_m >= 120.0e3 && along_m <= 700.0e3 ? 1.0F : 0.0F;
        }
    }
    wall.base_m = 1500.0;
    wall.top_m = 9500.0;
    const LightVerdict verdict = judge({wall, high_layer(0.6, 100.0)});
    EXPECT_EQ(verdict.verdict, Verdict::kShut);
    EXPECT_EQ(verdict.canvas, 1U);
    EXPECT_EQ(verdict.blocker, 0U);
    EXPECT_GT(verdict.blocked_to_m, 120.0e3);
    EXPECT_LT(verdict.blocked_from_m, verdict.blocked_to_m);
    EXPECT_LT(verdict.blocked_to_m, 700.0e3);
}

TEST(LightVerdict, MeansTheCanvasWithinAHundredKilometres) {
    const double cover = judge({high_layer(1.0, 50.0)}).canvas_cover;  // a disc without its outer fifth
    EXPECT_GT(cover, 0.7);
    EXPECT_LT(cover, 0.9);
}

TEST(LightVerdict, OfLowCloudOverheadIsHidden) {
    const LightVerdict verdict = judge({low_layer(0.8), high_layer(1.0, 200.0)});
    EXPECT_EQ(verdict.verdict, Verdict::kHidden);
    EXPECT_EQ(verdict.canvas, 0U);
    EXPECT_NEAR(verdict.canvas_cover, 0.8, 1e-6);
}

TEST(LightVerdict, AsksForLowCloudOverheadAndNotFarAway) {  // Bled: .8 overhead, .5 over 200 km
    auto local = low_layer(0.0);
    for (auto& line : local.cover) {
        for (std::size_t i = 24; i <= 36; ++i) {  // within 30 km
            line[i] = 0.8F;
        }
    }
    EXPECT_EQ(judge({local}).verdict, Verdict::kHidden);
    auto elsewhere = low_layer(0.8);
    for (auto& line : elsewhere.cover) {
        for (std::size_t i = 23; i <= 37; ++i) {
            line[i] = 0.0F;
        }
    }
    EXPECT_EQ(judge({elsewhere}).verdict, Verdict::kNoCanvas);
}

TEST(LightVerdict, OfAFewLowCloudsIsNotHidden) {
    EXPECT_EQ(judge({low_layer(0.2), high_layer(1.0, 200.0)}).verdict, Verdict::kOpen);
}

TEST(LightVerdict, OfAThinDeckIsHiddenOnlyWhereItLeavesNoGapsToLookThrough) {
    auto thin = low_layer(0.6);
    thin.top_m = thin.base_m + 200.0;
    EXPECT_EQ(judge({thin}).verdict, Verdict::kNoCanvas);
    EXPECT_EQ(judge({low_layer(0.6)}).verdict, Verdict::kHidden);
}

TEST(LightVerdict, OfAThinDeckWithHardlyAGapIsHidden) {
    auto thin = low_layer(0.95);
    thin.top_m = thin.base_m + 200.0;
    EXPECT_EQ(judge({thin}).verdict, Verdict::kHidden);
}

TEST(LightVerdict, OfASeaOfCloudBelowTheViewerIsNotHidden) {
    EXPECT_EQ(judge({low_layer(1.0), high_layer(1.0, 200.0)}, 2500.0).verdict, Verdict::kOpen);
    EXPECT_EQ(judge({low_layer(1.0)}, 2500.0).verdict, Verdict::kNoCanvas);
}

TEST(LightVerdict, OfAClearSkyHasNoCanvas) {
    const LightVerdict verdict = judge({low_layer(0.0), middle_layer(0.05), high_layer(0.05)});
    EXPECT_EQ(verdict.verdict, Verdict::kNoCanvas);
    EXPECT_EQ(verdict.moment, 20U);  // the moment that was asked
}

TEST(LightVerdict, TakesTheLayerOfWhichMostIsInView) {
    EXPECT_EQ(judge({middle_layer(0.2, 100.0), high_layer(0.8, 200.0)}).canvas, 1U);
    EXPECT_EQ(judge({middle_layer(0.7, 100.0), high_layer(0.8, 200.0)}).canvas, 0U);
}

TEST(BestLitMoment, IsLaterAfterSunsetForHigherCloud) {  // lower sun
    const auto& beam = test::default_air().beam;
    const auto elevation = [&](double base_m) {
        return dawn()[best_lit_moment(dawn(), beam, base_m)].sun.elevation.degrees();
    };
    EXPECT_LT(elevation(9000.0), elevation(2000.0));
    EXPECT_TRUE(is_after(Angle::degrees(elevation(9000.0))));
}

}  // namespace
}  // namespace gloam::outlook
