#pragma once

#include <string>
#include <vector>

#include "reference/montecarlo/cloud_tracer.hpp"

namespace gloam::montecarlo {

/// A cloud field that both solvers know.
struct CloudCase {
    std::string name;
    BrokenLayer layer;
    double aerosol_depth_550 = 0.10;
    bool ice = false;
    std::vector<double> suns_deg;
};
/// Fields of middle and high cloud, with a clean edge towards the sun and without. None was used to fit
/// anything.
std::vector<CloudCase> cloud_cases();

/// How the light of the beam gets into the cloud.
enum class Lit { kFromBelow, kLevel, kFromAbove };

/// Beam light of one field in one direction, cd m-2 over all sky there, by both solvers.
struct CloudPair {
    std::string field;
    double sun_deg = 0.0;
    double elevation_deg = 0.0;
    double azimuth_deg = 0.0;
    Lit lit = Lit::kFromBelow;
    Figure luminance;  ///< Monte Carlo
    double fast_cd_m2 = 0.0;
};
/// Every direction of one field, at every sun of it.
std::vector<CloudPair> compared(const CloudCase& one, int paths_per_batch, unsigned threads);

}  // namespace gloam::montecarlo
