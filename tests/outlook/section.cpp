// The cut along the light path, for synthetic cloud over the equator's dawn.
#include "outlook/section.hpp"

#include <gmock/gmock.h>

#include <algorithm>

#include "support/equator_dawn.hpp"

namespace gloam::outlook {
namespace {

using synthetic::Deck;
using ::testing::HasSubstr;
using weather::Band;

Section section_on(const std::vector<Deck>& decks) {
    const auto layers = synthetic::layers_in(synthetic::dawn_file({}, decks));
    return section_of(synthetic::tables(), layers, synthetic::equator_dawn()).value();
}

SectionRay best_ray(const Section& section) {
    return *std::ranges::find(section.rays, section.moment, &SectionRay::instant);
}

const Deck kCanopy{synthetic::kAt9km, synthetic::up_to_km(150.0, 0.8)};

TEST(Section, LooksTowardsTheSun) {
    EXPECT_NEAR(section_on({kCanopy}).towards_sun.degrees(), 90.0, 0.5);
}

TEST(Section, HoldsTheCoverOfEachLayerAlongThePath) {
    const Section section = section_on({kCanopy});
    ASSERT_EQ(section.layers.size(), 3U);
    const SectionLayer& high = section.layers[2];
    EXPECT_EQ(high.band, Band::kHigh);
    ASSERT_EQ(high.cover.size(), geo::LightPathGrid::kPoints);
    EXPECT_NEAR(high.cover[30], 0.8, 1e-3);   // overhead
    EXPECT_NEAR(high.cover[100], 0.0, 1e-3);  // 350 km up-sun
    EXPECT_NEAR(high.base_m, 8.6e3, 100.0);   // 325 hPa
}

TEST(Section, HasThreeRaysInTimeOrder) {
    const Section section = section_on({kCanopy});
    ASSERT_EQ(section.rays.size(), 3U);
    EXPECT_LT(section.rays[0].instant, section.rays[1].instant);
    EXPECT_LT(section.rays[1].instant, section.rays[2].instant);
    EXPECT_NEAR((section.rays[1].sun_elevation - section.rays[0].sun_elevation).degrees(), 0.75, 1e-6);
}

TEST(Section, ItsBestRaySinksFromTheCloudAndRisesAgain) {
    const auto points = best_ray(section_on({kCanopy})).points;
    const auto lowest = std::ranges::min_element(points, {}, &SectionPoint::height_m);
    EXPECT_NEAR(points.front().height_m, 8.6e3, 100.0);
    EXPECT_GT(lowest->along_m, 50.0e3);
    EXPECT_LT(lowest->along_m, 250.0e3);
    EXPECT_GT(points.back().height_m, points.front().height_m);
    EXPECT_TRUE(std::is_sorted(lowest, points.end(), [](const SectionPoint& a, const SectionPoint& b) {
        return a.height_m < b.height_m;
    }));
}

TEST(Section, ItsRaysStayWithinTheDrawing) {
    for (const SectionRay& ray : section_on({kCanopy}).rays) {
        for (const SectionPoint& point : ray.points) {
            EXPECT_GE(point.height_m, 0.0);
            EXPECT_LE(point.height_m, kSectionHeight_m);
            EXPECT_LE(point.along_m, kSectionReach_m);
        }
    }
}

TEST(Section, TellsWhereARayMeetsCloud) {
    const Section section = section_on({{synthetic::kAt9km, synthetic::up_to_km(60.0, 0.8)},
                                        {synthetic::kAt9km, synthetic::between_km(150.0, 700.0, 0.9)}});
    const SectionRay ray = best_ray(section);
    ASSERT_FALSE(ray.meetings.empty());
    const SectionMeeting& last = ray.meetings.back();
    EXPECT_EQ(last.band, Band::kHigh);
    EXPECT_GT(last.to_m, 150.0e3);
    EXPECT_LT(last.from_m, 700.0e3);
    EXPECT_LT(last.free, 0.1);
}

TEST(Section, OfAnOpenPathHasFreeRays) {
    EXPECT_GT(best_ray(section_on({kCanopy})).free, 0.9);
}

TEST(Section, ARayIsAsFreeAsAllItsMeetingsTogether) {
    for (const SectionRay& ray :
         section_on({kCanopy, {synthetic::kAt1km, synthetic::everywhere(0.3)}}).rays) {
        double free = 1.0;
        for (const SectionMeeting& meeting : ray.meetings) {
            free *= meeting.free;
        }
        EXPECT_NEAR(ray.free, free, 1e-12);
    }
}

TEST(Section, SaysInASentenceWhatDecides) {
    EXPECT_THAT(section_on({kCanopy}).deciding, HasSubstr("the sun's rays reach it"));
    EXPECT_THAT(section_on({}).deciding, HasSubstr("Next to no middle or high cloud"));
}

TEST(Section, OfAClearSkyStillShowsTheRaysOfHighCloud) {
    const Section section = section_on({});
    EXPECT_NEAR(best_ray(section).points.front().height_m, 9.0e3, 1.0);
    EXPECT_EQ(best_ray(section).free, 1.0);
}

}  // namespace
}  // namespace gloam::outlook
