#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

namespace gloam::test {

/// A folder of the running test alone, gone when it ends.
class Folder {
  public:
    Folder() : path_(unique()) { std::filesystem::create_directories(path_); }
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    std::filesystem::path operator/(std::string_view name) const { return path_ / name; }

    /// Writes a text file here.
    std::filesystem::path with(std::string_view name, std::string_view text) const {
        const auto file = path_ / name;
        std::filesystem::create_directories(file.parent_path());
        std::ofstream(file, std::ios::binary) << text;
        return file;
    }

  private:
    /// Every test has a name of its own, and CTest runs each in a process of its own.
    static std::filesystem::path unique() {
        const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
        std::string name = std::string("gloam.") + test->test_suite_name() + '.' + test->name();
        for (char& letter : name) {
            letter = letter == '/' ? '_' : letter;
        }
        return std::filesystem::temp_directory_path() / name;
    }

    std::filesystem::path path_;
};

}  // namespace gloam::test
