#pragma once

#include <string_view>

namespace gloam::weather {

/// data/model_runs/model_runs.csv as it was when the program was built.
std::string_view embedded_model_runs();

}  // namespace gloam::weather
