// Files that the reader may not read. Root may read all, so that the reading is done by a child process that
// gives that up.
#include <gmock/gmock.h>
#include <grp.h>
#include <unistd.h>

#include <cstdio>

#include "support/folder.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

namespace fs = std::filesystem;
using test::Folder;

constexpr auto kNothing = fs::perms::none;
constexpr auto kAll = fs::perms::all;

/// Becomes nobody if it is root, reads the file and ends, telling the error.
[[noreturn]] void read_as_nobody(const fs::path& file) {
    constexpr unsigned kNobody = 65534;
    if (geteuid() == 0 && (setgroups(0, nullptr) != 0 || setgid(kNobody) != 0 || setuid(kNobody) != 0)) {
        std::fputs("could not become nobody", stderr);
        _exit(2);
    }
    const std::vector<fs::path> files{file};
    const auto forecast = read_forecast(files);
    std::fputs(forecast ? "was read" : to_text(forecast.error()).c_str(), stderr);
    _exit(forecast ? 1 : 0);  // at once: the child has nothing to clean up
}

class ForbiddenFiles : public ::testing::Test {
  protected:
    ForbiddenFiles() : inside_(folder_ / "inside"), file_(inside_ / "run.grib2") {
        fs::create_directories(inside_);
        synthetic::write_file(file_, message({}, [](double, double) { return std::optional(50.0); }));
    }
    ~ForbiddenFiles() override { fs::permissions(inside_, kAll); }

    static constexpr const char* kRefusal =
        "run.grib2: this cannot be read\n  check that you may read the file";
    Folder folder_;
    fs::path inside_;
    fs::path file_;
};

TEST_F(ForbiddenFiles, AFileThatNobodyMayReadIsRefusedWithItsNameAndARemedy) {
    fs::permissions(file_, kNothing);
    EXPECT_EXIT(read_as_nobody(file_), ::testing::ExitedWithCode(0), kRefusal);
}

TEST_F(ForbiddenFiles, AFileInAFolderThatNobodyMayEnterIsRefusedWithItsNameAndARemedy) {
    fs::permissions(inside_, kNothing);
    EXPECT_EXIT(read_as_nobody(file_), ::testing::ExitedWithCode(0), kRefusal);
}

TEST_F(ForbiddenFiles, AFileThatAllMayReadIsReadByTheSameChild) {
    EXPECT_EXIT(read_as_nobody(file_), ::testing::ExitedWithCode(1), "was read");
}

}  // namespace
}  // namespace gloam::weather
