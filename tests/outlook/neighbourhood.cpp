#include "outlook/neighbourhood.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <set>

namespace gloam::outlook {
namespace {

constexpr std::size_t kUsual = 31;
constexpr Displaceable kSixHoursAhead{.lead_hours = 6.0, .half_hours = 0.5, .several_steps = true};

using Draw = std::function<double(const MemberDraw&)>;

double mean_of(const std::vector<MemberDraw>& draws, const Draw& value) {
    double sum = 0.0;
    for (const MemberDraw& draw : draws) {
        sum += value(draw);
    }
    return sum / static_cast<double>(draws.size());
}

double deviation_of(const std::vector<MemberDraw>& draws, const Draw& value) {
    const double mean = mean_of(draws, value);
    return std::sqrt(mean_of(draws, [&](const MemberDraw& draw) { return std::pow(value(draw) - mean, 2); }));
}

double along(const MemberDraw& draw) {
    return draw.displacement.along_m;
}
double aside(const MemberDraw& draw) {
    return draw.displacement.aside_m;
}

TEST(NormalQuantile, IsThatOfTheTables) {  // any statistics table
    EXPECT_NEAR(normal_quantile(0.5), 0.0, 1e-12);
    EXPECT_NEAR(normal_quantile(0.841344746), 1.0, 1e-8);
    EXPECT_NEAR(normal_quantile(0.95), 1.644854, 5e-7);
    EXPECT_NEAR(normal_quantile(0.975), 1.959964, 5e-7);
    EXPECT_NEAR(normal_quantile(0.995), 2.575829, 5e-7);
}

TEST(NormalQuantile, IsOdd) {
    for (const double probability : {0.001, 0.1, 0.3, 0.49}) {
        EXPECT_NEAR(normal_quantile(probability), -normal_quantile(1.0 - probability), 1e-12);
    }
}

TEST(Neighbourhood, BeginsWithTheForecastAsItIs) {
    const MemberDraw first = neighbourhood(kUsual, kSixHoursAhead).front();
    EXPECT_NEAR(first.displacement.along_m, 0.0, 1e-6);
    EXPECT_NEAR(first.displacement.aside_m, 0.0, 1e-6);
    EXPECT_EQ(first.displacement.later, Duration(0));
    EXPECT_DOUBLE_EQ(first.base_shift, 0.0);
    EXPECT_DOUBLE_EQ(first.depth_factor, 1.0);
    EXPECT_NEAR(first.aerosol_depth_550, 0.10, 1e-12);
    EXPECT_DOUBLE_EQ(first.aerosol_scale_height_m, 1650.0);
    EXPECT_DOUBLE_EQ(first.cover_power, 1.0);
    EXPECT_DOUBLE_EQ(first.displacement.drift_along_m_s, 15.0);
    EXPECT_DOUBLE_EQ(first.displacement.drift_aside_m_s, 15.0);
}

TEST(Neighbourhood, IsTheSameEveryTime) {
    const auto one = neighbourhood(kUsual, kSixHoursAhead);
    const auto other = neighbourhood(kUsual, kSixHoursAhead);
    ASSERT_EQ(one.size(), kUsual);
    for (std::size_t i = 0; i < kUsual; ++i) {
        EXPECT_EQ(along(one[i]), along(other[i]));
        EXPECT_EQ(aside(one[i]), aside(other[i]));
        EXPECT_EQ(one[i].displacement.later, other[i].displacement.later);
        EXPECT_EQ(one[i].base_shift, other[i].base_shift);
        EXPECT_EQ(one[i].depth_factor, other[i].depth_factor);
        EXPECT_EQ(one[i].aerosol_depth_550, other[i].aerosol_depth_550);
        EXPECT_EQ(one[i].aerosol_scale_height_m, other[i].aerosol_scale_height_m);
        EXPECT_EQ(one[i].cover_power, other[i].cover_power);
        EXPECT_EQ(one[i].displacement.drift_along_m_s, other[i].displacement.drift_along_m_s);
        EXPECT_EQ(one[i].displacement.drift_aside_m_s, other[i].displacement.drift_aside_m_s);
    }
}

TEST(Neighbourhood, StaysWithinItsRanges) {
    for (const std::size_t count : {1U, 2U, 3U, 12U, 31U, 51U, 500U}) {
        for (const MemberDraw& draw : neighbourhood(count, kSixHoursAhead)) {
            EXPECT_LE(std::abs(draw.base_shift), 1.0);
            EXPECT_GE(draw.depth_factor, 0.5);
            EXPECT_LE(draw.depth_factor, 2.0);
            EXPECT_GE(draw.aerosol_depth_550, 0.02);
            EXPECT_LE(draw.aerosol_depth_550, 0.60);
            EXPECT_GE(draw.aerosol_scale_height_m, 800.0);
            EXPECT_LE(draw.aerosol_scale_height_m, 2500.0);
            EXPECT_GE(draw.cover_power, 0.5);
            EXPECT_LE(draw.cover_power, 2.0);
            EXPECT_GE(draw.believed_m, 100.0e3);
            EXPECT_LE(draw.believed_m, 300.0e3);
            for (const double drift_m_s :
                 {draw.displacement.drift_along_m_s, draw.displacement.drift_aside_m_s}) {
                EXPECT_GE(std::abs(drift_m_s), 5.0);
                EXPECT_LE(std::abs(drift_m_s), 25.0);
            }
            EXPECT_LE(std::abs(draw.displacement.later / std::chrono::milliseconds(1)), 30 * 60 * 1000);
            EXPECT_LT(std::abs(along(draw)), 4.0 * 52.0e3);
        }
    }
}

/// A dimension of the draws, on a scale where its centre is 0 and its range about 1 each way.
struct Dimension {
    const char* name;
    double (*value)(const MemberDraw&);
};

class Centred : public ::testing::TestWithParam<Dimension> {};

TEST_P(Centred, TheMeanOfTheMembersIsTheCentre) {
    EXPECT_NEAR(mean_of(neighbourhood(kUsual, kSixHoursAhead), GetParam().value), 0.0, 1e-3);
}

INSTANTIATE_TEST_SUITE_P(
    Neighbourhood, Centred,
    ::testing::Values(
        Dimension{"along", [](const MemberDraw& draw) { return along(draw) / 52.0e3; }},
        Dimension{"aside", [](const MemberDraw& draw) { return aside(draw) / 52.0e3; }},
        Dimension{
            "later",
            [](const MemberDraw& draw) { return 2.0 * hours_between({}, Instant(draw.displacement.later)); }},
        Dimension{"base_shift", [](const MemberDraw& draw) { return draw.base_shift; }},
        Dimension{"cover", [](const MemberDraw& draw) { return std::log2(draw.cover_power); }},
        Dimension{"depth", [](const MemberDraw& draw) { return std::log2(draw.depth_factor); }},
        Dimension{"aerosol",
                  [](const MemberDraw& draw) { return std::log(draw.aerosol_depth_550 / 0.10) / 0.6; }},
        Dimension{"scale_height",
                  [](const MemberDraw& draw) { return (draw.aerosol_scale_height_m - 1650.0) / 850.0; }}),
    [](const auto& dimension) { return std::string(dimension.param.name); });

TEST(Neighbourhood, IsDisplacedByFortyKilometresAndTwoMoreAnHour) {
    for (const double lead_hours : {0.0, 6.0, 48.0}) {
        const Displaceable displaceable{lead_hours, 0.5, true};
        const auto draws = neighbourhood(kUsual, displaceable);
        const double spread_m = 40.0e3 + 2.0e3 * lead_hours;
        EXPECT_NEAR(deviation_of(draws, along), spread_m, 0.03 * spread_m);
        EXPECT_NEAR(deviation_of(draws, aside), spread_m, 0.03 * spread_m);
    }
}

TEST(Neighbourhood, AForecastOfTheEventAlreadyPastIsDisplacedAsIfItWereFresh) {
    const Displaceable past{-3.0, 0.5, true};
    const Displaceable fresh{0.0, 0.5, true};
    EXPECT_EQ(along(neighbourhood(kUsual, past)[5]), along(neighbourhood(kUsual, fresh)[5]));
}

TEST(Neighbourhood, WithOneStepNoMemberIsDisplacedLess) {
    const Displaceable one_step{.lead_hours = 6.0, .half_hours = 0.5, .several_steps = false};
    const auto several = neighbourhood(kUsual, kSixHoursAhead);
    const auto one = neighbourhood(kUsual, one_step);
    for (std::size_t i = 0; i < kUsual; ++i) {
        EXPECT_GE(std::abs(along(one[i])), std::abs(along(several[i])));
        EXPECT_GE(std::abs(aside(one[i])), std::abs(aside(several[i])));
        EXPECT_EQ(one[i].displacement.later, Duration(0));
    }
}

TEST(Neighbourhood, OfAnAverageIsDisplacedByWhatCloudDriftsInHalfItsHours) {
    const Displaceable six_hours{.lead_hours = 6.0, .half_hours = 3.0, .several_steps = false};
    const double drifted_m = 15.0 * 3.0 * 3600.0 / std::sqrt(3.0);
    const double spread_m = std::hypot(52.0e3, drifted_m);
    EXPECT_NEAR(deviation_of(neighbourhood(kUsual, six_hours), along), spread_m, 0.03 * spread_m);
    EXPECT_NEAR(deviation_of(neighbourhood(kUsual, six_hours), aside), spread_m, 0.03 * spread_m);
}

TEST(Neighbourhood, OfARealEnsembleOfAveragesIsDisplacedByTheDriftAlone) {
    const Displaceable six_hours{.lead_hours = {}, .half_hours = 3.0, .several_steps = false};
    const double drifted_m = 15.0 * 3.0 * 3600.0 / std::sqrt(3.0);
    EXPECT_NEAR(deviation_of(neighbourhood(kUsual, six_hours), along), drifted_m, 0.03 * drifted_m);
}

TEST(Neighbourhood, DriftsAsOftenOneWayAsTheOther) {
    int coming = 0;
    int from_the_right = 0;
    for (const MemberDraw& draw : neighbourhood(kUsual, kSixHoursAhead)) {
        coming += draw.displacement.drift_along_m_s > 0.0 ? 1 : 0;
        from_the_right += draw.displacement.drift_aside_m_s > 0.0 ? 1 : 0;
    }
    EXPECT_EQ(coming, 16);
    EXPECT_EQ(from_the_right, 16);
}

TEST(Neighbourhood, HasNoTwoMembersAtTheSamePlace) {
    const auto draws = neighbourhood(kUsual, kSixHoursAhead);
    for (std::size_t i = 0; i < kUsual; ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            EXPECT_GT(std::hypot(along(draws[i]) - along(draws[j]), aside(draws[i]) - aside(draws[j])),
                      10.0e3)
                << i << " and " << j;
        }
    }
}

TEST(Neighbourhood, OfARealEnsembleIsNotDisplaced) {
    for (const MemberDraw& draw : neighbourhood(kUsual, {})) {
        EXPECT_EQ(along(draw), 0.0);
        EXPECT_EQ(aside(draw), 0.0);
        EXPECT_EQ(draw.displacement.later, Duration(0));
    }
}

TEST(Neighbourhood, OfAnySizeDrawsEveryMemberAnotherCloudHeight) {
    for (const std::size_t count : {5U, 20U, 21U, 30U, 51U}) {
        std::set<double> shifts;
        for (const MemberDraw& draw : neighbourhood(count, {})) {
            shifts.insert(draw.base_shift);
        }
        EXPECT_EQ(shifts.size(), count);
    }
}

}  // namespace
}  // namespace gloam::outlook
