#pragma once

#include <string>
#include <vector>

#include "reference/montecarlo/sky_comparison.hpp"

namespace gloam::montecarlo {

/// One clear sky by both solvers.
struct Compared {
    double aerosol_depth_550;
    std::vector<Light> monte_carlo;
    std::vector<Light> fast;
};

/// What a solver would say that simplifies.
struct Simplified {
    std::string name;
    std::vector<Light> lights;
};

// Markdown tables of the report; skies in the order of kSuns_deg and kDirections.

/// Median and largest differences, a row for each amount of aerosol.
std::string summary_table(const std::vector<Compared>& skies);
/// Fast over Monte Carlo luminance, a row for each sun.
std::string ratio_table(const Compared& sky);
/// Luminance and colour by Monte Carlo with its noise, and the differences of the fast sky.
std::string sky_table(const Compared& sky);
/// Median and largest differences of each from the first.
std::string simplified_table(const std::vector<Simplified>& all);
/// Level illuminance by both solvers beside the handbook.
std::string level_table(const Compared& level);

}  // namespace gloam::montecarlo
