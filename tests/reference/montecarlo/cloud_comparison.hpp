#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "reference/montecarlo/cloud_tracer.hpp"
#include "sky/cloud_light.hpp"

namespace gloam::montecarlo {

/// A cloud field that both solvers know.
struct CloudCase {
    std::string name;
    BrokenLayer layer;
    double aerosol_depth_550 = 0.10;
    sky::CloudClass kind = sky::CloudClass::kMiddle;
    std::vector<double> suns_deg;
};
/// Where the light of fields is looked at.
struct Looks {
    std::vector<double> elevations_deg;
    std::vector<double> azimuths_deg;
};
/// Fields of low, middle and high cloud, with a clean edge towards the sun and without, to which the
/// constants of sky/cloud_light.hpp were fitted.
std::vector<CloudCase> fitted_cases();
inline const Looks kFittedLooks{{8.0, 20.0, 40.0}, {0.0, 30.0, 65.0, 120.0, 160.0}};
/// Others, to which nothing was fitted: other covers, scales, heights, depths, suns and directions.
std::vector<CloudCase> checked_cases();
/// Fields whose sunward edge is near, so that their front rows are seen.
std::vector<CloudCase> front_cases();
inline const Looks kCheckedLooks{{6.0, 15.0, 30.0, 60.0}, {0.0, 45.0, 90.0, 180.0}};

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
    sky::CloudOptics optics;  ///< what the fast light was made of
    sky::CloudView view;
    double open = 0.0;  ///< share of gaps in the direction
};
/// Every look at one field, at every sun of it.
std::vector<CloudPair> compared(const CloudCase& one, const Looks& looks, int paths_per_batch,
                                unsigned threads);

/// Bias and root mean square of ln(fast / Monte Carlo) over pairs that are bright enough to matter (0.3 cd
/// m-2) and known to 25 %.
struct Spread {
    int count = 0;
    double bias = 0.0;
    double rms = 0.0;
};
Spread spread(const std::vector<CloudPair>& pairs, const std::function<bool(const CloudPair&)>& counts);
/// The same as if the fast light had been made with other constants. Its fronts are left as they are, which
/// have no part in the fields that were fitted.
Spread spread_with(const std::vector<CloudPair>& pairs, const sky::LightFromBelow& constants);
Spread spread_with(const std::vector<CloudPair>& pairs, const sky::LightFromAbove& constants);

/// Values near `start` at which `cost` is least: each in turn is moved by a tenth and less, down to a
/// thousandth of it.
std::vector<double> least(std::vector<double> start,
                          const std::function<double(std::span<const double>)>& cost);

/// Light of a level plane under a deck that has no end, by both solvers.
struct Overcast {
    double sun_deg = 0.0;
    Figure on_deck_lx;              ///< diffuse light on top of the deck, Monte Carlo
    double under_deck_cd_m2 = 0.0;  ///< mean luminance of the deck from below, of that and of the sun
    double fast_cd_m2 = 0.0;        ///< 45 deg up, at right angles to the sun
    double clear_lx = 0.0;          ///< level light without the deck, by src/sky
};
/// A closed deck of a class between heights, at each sun. The Monte Carlo has the deck for its ground, as
/// bright as it returns diffuse light; below it, light is what the deck lets through, diffuse or level, and
/// what passes between deck and ground.
std::vector<Overcast> overcast(sky::CloudClass kind, double base_km, double top_km,
                               const std::vector<double>& suns_deg, unsigned threads);

}  // namespace gloam::montecarlo
