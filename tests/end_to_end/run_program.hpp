#pragma once

#include <string>
#include <vector>

#include "support/folder.hpp"

namespace gloam {

/// What a run of the built program left behind.
struct Outcome {
    int exit_code = -1;  ///< 124: stopped after a minute
    std::string out;
    std::string err;
};

/// Environment variables of a run, "NAME=value"; nothing else reaches the program.
using Environment = std::vector<std::string>;

/// Runs the built program and waits for it. Its output passes through files in `folder`, which is its HOME
/// unless told otherwise.
Outcome run_program(const test::Folder& folder, std::vector<std::string> arguments);
Outcome run_program(const test::Folder& folder, std::vector<std::string> arguments, Environment environment);

}  // namespace gloam
