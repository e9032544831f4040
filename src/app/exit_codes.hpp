#pragma once

#include "base/error.hpp"

namespace gloam::app {

/// Exit code of the program for each kind of error; 0 is an answer, whatever the answer is.
int exit_code_of(ErrorKind kind);

/// The table of exit codes for --help and docs.
inline constexpr const char* kExitCodesHelp =
    "Exit codes: 0 an answer (go, stay or look again); 2 a word or number that makes no sense; 3 nothing by "
    "that name, or no such "
    "dawn or dusk; 4 a file that cannot be read; 5 the forecast does not cover the place or the hours; 6 the "
    "forecast lacks what "
    "the answer needs; 7 a kind of file or request not supported; 8 another process holds the journal; 9 the "
    "system refuses (no permission, disk full); 70 a fault of the program itself.";

}  // namespace gloam::app
