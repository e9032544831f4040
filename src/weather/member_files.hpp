#pragma once

#include "weather/forecast.hpp"

namespace gloam::weather {

/// Some ensembles come as one file a member, and no file says which member it is. If fields without a member
/// number are there several times, once in each of several files, the files of each are numbered as members
/// in the order in which they came, and a note of the forecast says so. Nothing is changed if a field is
/// there twice in one file, if some fields are in more files than others, or if two files hold the same
/// values: those are repetitions.
void number_members_by_file(Forecast& forecast);

}  // namespace gloam::weather
