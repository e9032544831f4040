# cmake -D sources=DIR -D tables=FILE -D into=FILE -P write_versions.cmake
# Writes what a stored call needs to know of the program that made it: the hash of the source files that
# a call is computed with, and of the sky tables.
file(GLOB_RECURSE files RELATIVE ${sources} ${sources}/*.cpp ${sources}/*.hpp ${sources}/*.in)
list(SORT files)
set(hashes "")
foreach(file IN LISTS files)
    file(SHA256 ${sources}/${file} hash)
    string(APPEND hashes "${file} ${hash}\n")
endforeach()
string(SHA256 model "${hashes}")
string(SUBSTRING ${model} 0 16 model)
file(SHA256 ${tables} tables_hash)
set(text "// Made by cmake/write_versions.cmake.
#pragma once

namespace gloam::app {
inline constexpr const char* kModelVersion = \"${model}\";
inline constexpr const char* kTablesHash = \"${tables_hash}\";
}  // namespace gloam::app
")
if(EXISTS ${into})
    file(READ ${into} before)
endif()
if(NOT "${before}" STREQUAL "${text}")
    file(WRITE ${into} "${text}")
endif()
