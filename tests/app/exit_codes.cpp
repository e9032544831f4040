#include "app/exit_codes.hpp"

#include <gmock/gmock.h>

#include <string>

namespace gloam::app {
namespace {

TEST(ExitCodes, AreOneForEachKindOfError) {
    EXPECT_EQ(exit_code_of(ErrorKind::kBadInput), 2);
    EXPECT_EQ(exit_code_of(ErrorKind::kNotFound), 3);
    EXPECT_EQ(exit_code_of(ErrorKind::kUnreadable), 4);
    EXPECT_EQ(exit_code_of(ErrorKind::kOutOfDomain), 5);
    EXPECT_EQ(exit_code_of(ErrorKind::kIncomplete), 6);
    EXPECT_EQ(exit_code_of(ErrorKind::kUnsupported), 7);
    EXPECT_EQ(exit_code_of(ErrorKind::kBusy), 8);
    EXPECT_EQ(exit_code_of(ErrorKind::kDenied), 9);
    EXPECT_EQ(exit_code_of(ErrorKind::kInternal), 70);
}

TEST(ExitCodes, StandInTheHelp) {
    for (const auto kind : {ErrorKind::kBadInput, ErrorKind::kNotFound, ErrorKind::kUnreadable,
                            ErrorKind::kOutOfDomain, ErrorKind::kIncomplete, ErrorKind::kUnsupported,
                            ErrorKind::kBusy, ErrorKind::kDenied, ErrorKind::kInternal}) {
        EXPECT_THAT(kExitCodesHelp, ::testing::HasSubstr("; " + std::to_string(exit_code_of(kind)) + ' '))
            << name_of(kind);
    }
}

}  // namespace
}  // namespace gloam::app
