#include "base/error.hpp"

#include <gmock/gmock.h>

#include <set>
#include <string_view>

#include "base/check.hpp"

namespace gloam {
namespace {

using testing::AllOf;
using testing::HasSubstr;

TEST(ErrorText, SaysWhereThenWhatThenWhatToDo) {
    const Error error{ErrorKind::kUnreadable, "the file ends early", "a.grib2, message 3", "fetch it again"};
    EXPECT_EQ(to_text(error), "a.grib2, message 3: the file ends early\n  fetch it again");
}

TEST(ErrorText, LeavesOutWhatIsUnknown) {
    EXPECT_EQ(to_text(Error{ErrorKind::kNotFound, "no such place", "", ""}), "no such place");
    EXPECT_EQ(to_text(Error{ErrorKind::kNotFound, "no such place", "trip.toml", ""}),
              "trip.toml: no such place");
    EXPECT_EQ(to_text(Error{ErrorKind::kNotFound, "no such place", "", "try --list"}),
              "no such place\n  try --list");
}

TEST(ErrorKind, HasANameOfItsOwn) {
    std::set<std::string_view> names;
    for (const ErrorKind kind : {ErrorKind::kBadInput, ErrorKind::kOutOfDomain, ErrorKind::kNotFound,
                                 ErrorKind::kUnreadable, ErrorKind::kUnsupported, ErrorKind::kIncomplete,
                                 ErrorKind::kBusy, ErrorKind::kDenied, ErrorKind::kInternal}) {
        EXPECT_TRUE(names.insert(name_of(kind)).second) << name_of(kind);
    }
    EXPECT_EQ(name_of(ErrorKind::kBadInput), "bad_input");
}

TEST(Result, CarriesTheErrorOfAFailure) {
    const Result<int> result = fail(ErrorKind::kOutOfDomain, "too far north", "latitude", "stay below 90");
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().kind, ErrorKind::kOutOfDomain);
    EXPECT_EQ(to_text(result.error()), "latitude: too far north\n  stay below 90");
}

TEST(Check, ThrowsWithConditionAndPlaceWhenAPromiseIsBroken) {
    EXPECT_NO_THROW(GLOAM_CHECK(1 + 1 == 2));
    EXPECT_THAT([] { GLOAM_CHECK(1 + 1 == 3); },
                testing::ThrowsMessage<InternalError>(
                    AllOf(HasSubstr("1 + 1 == 3"), HasSubstr("in tests/base/error_test.cpp:"))));
}

}  // namespace
}  // namespace gloam
