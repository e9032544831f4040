#include "sheet/label_column.hpp"

#include <gmock/gmock.h>

namespace gloam::sheet {
namespace {

using testing::ElementsAre;

TEST(LabelColumn, LeavesAloneWhatDoesNotOverlap) {
    EXPECT_THAT(label_tops({{50.0, 10.0}, {10.0, 10.0}}, 0.0, 100.0), ElementsAre(50.0, 10.0));
    EXPECT_TRUE(label_tops({}, 0.0, 100.0).empty());
}

TEST(LabelColumn, MovesTheLowerOneDown) {
    EXPECT_THAT(label_tops({{15.0, 10.0}, {10.0, 10.0}}, 0.0, 100.0), ElementsAre(20.0, 10.0));
}

TEST(LabelColumn, KeepsWithinTopAndBottom) {
    EXPECT_THAT(label_tops({{-5.0, 10.0}, {97.0, 10.0}, {96.0, 10.0}}, 0.0, 100.0),
                ElementsAre(0.0, 90.0, 80.0));
}

}  // namespace
}  // namespace gloam::sheet
