#include "weather/model_runs.hpp"

#include <gtest/gtest.h>

namespace gloam::weather {
namespace {

Instant at(std::string_view time) {
    return parse_rfc3339(time).value();
}

TEST(NextRun, IsTheFirstLaterOneThatIsStillToCome) {
    const auto next = next_run("NCEP GFS", at("2025-01-28T12:00:00Z"), at("2025-01-28T20:30:00Z")).value();
    EXPECT_EQ(next.run_time, at("2025-01-28T18:00:00Z"));
    EXPECT_EQ(next.complete, at("2025-01-28T23:00:00Z"));
}

TEST(NextRun, OfAnOldRunIsNotOneThatIsThereAlready) {
    const auto next = next_run("NCEP GFS", at("2025-01-27T12:00:00Z"), at("2025-01-28T20:30:00Z")).value();
    EXPECT_EQ(next.run_time, at("2025-01-28T18:00:00Z"));
}

TEST(NextRun, RightAfterARunIsTheNext) {
    const auto next = next_run("NCEP GFS", at("2025-01-28T18:00:00Z"), at("2025-01-28T18:00:00Z")).value();
    EXPECT_EQ(next.run_time, at("2025-01-29T00:00:00Z"));
}

TEST(NextRun, KnowsACentreByTheBeginningOfItsName) {
    const auto next = next_run("Offenbach", at("2025-01-28T18:00:00Z"), at("2025-01-28T20:40:00Z")).value();
    EXPECT_EQ(next.run_time, at("2025-01-28T21:00:00Z"));
    EXPECT_EQ(next.complete, at("2025-01-28T23:40:00Z"));
}

TEST(NextRun, OfASourceThatIsNotListedIsUnknown) {
    EXPECT_FALSE(next_run("A synthetic centre", at("2025-01-28T18:00:00Z"), at("2025-01-28T18:00:00Z")));
}

}  // namespace
}  // namespace gloam::weather
