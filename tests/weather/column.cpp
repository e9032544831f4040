// The three layers over a place.
#include "weather/column.hpp"

#include <gmock/gmock.h>

#include "base/check.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using ::testing::HasSubstr;

const Instant kSix = parse_rfc3339("2025-01-29T06:00:00Z").value();

/// Low cloud that grows eastward by a tenth a degree; nothing else.
LayeredForecast low_cloud() {
    return layers(cover_on_levels({.grid = {.rows = 3, .columns = 11}, .levels_hpa = {900, 850, 500, 300}},
                                  [](double, double lon, double pressure_pa) {
                                      return pressure_pa == 850e2 ? (lon + 10.0) / 10.0 : 0.0;
                                  }));
}

TEST(ColumnAt, IsBilinearInCover) {
    const auto column = column_at(low_cloud(), 0, {59.5, -4.5}, kSix).value();
    EXPECT_NEAR(column[index_of(Band::kLow)].cover, 0.55, 1e-4);
    EXPECT_EQ(column[index_of(Band::kMiddle)].cover, 0.0);
}

TEST(ColumnAt, AClearCellDoesNotPullTheBaseDown) {
    const auto edge =
        column_at(low_cloud(), 0, {60.0, -9.9}, kSix).value();  // nearly all weight on the clear cell
    const auto inside = column_at(low_cloud(), 0, {60.0, -2.0}, kSix).value();
    EXPECT_NEAR(edge[0].base_m, inside[0].base_m, 1e-3);
    EXPECT_NEAR(edge[0].top_m, inside[0].top_m, 1e-3);
}

TEST(ColumnAt, AClearLayerHasItsUsualHeights) {
    const auto column = column_at(low_cloud(), 0, {59.5, -4.5}, kSix).value();
    EXPECT_DOUBLE_EQ(column[index_of(Band::kHigh)].base_m, 9.0e3);
    EXPECT_DOUBLE_EQ(column[index_of(Band::kHigh)].top_m, 10.0e3);
}

TEST(ColumnAt, OutsideTheGridOrTheTimeIsRefused) {
    const auto place = column_at(low_cloud(), 0, {59.5, 10.0}, kSix);
    ASSERT_FALSE(place);
    EXPECT_EQ(place.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_THAT(place.error().message, HasSubstr("does not cover the place"));
    EXPECT_FALSE(column_at(low_cloud(), 0, {59.5, -4.5}, kSix + std::chrono::minutes(91)));
}

TEST(ColumnAt, AMemberThatIsNotThereIsABrokenPromise) {
    EXPECT_THROW(static_cast<void>(column_at(low_cloud(), 1, {59.5, -4.5}, kSix)), InternalError);
}

}  // namespace
}  // namespace gloam::weather
