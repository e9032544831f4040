#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "base/instant.hpp"
#include "weather/light_path.hpp"

namespace gloam::outlook {

/// One member's draw of everything that the forecast leaves open.
struct MemberDraw {
    weather::Displacement displacement;      ///< of the cloud field
    double base_shift = 0.0;                 ///< of cloud heights, -1..1 times what is not known about them
    double depth_factor = 1.0;               ///< on the optical depth of cloud, 1/2 to 2
    double aerosol_depth_550 = 0.10;         ///< ln ~ N(ln .10, .6), kept within .02 to .60
    double aerosol_scale_height_m = 1500.0;  ///< 800 to 2500 m
    double cover_power = 1.0;     ///< cover is raised to it, 1/2 to 2, where it was worked out or averaged
    double believed_m = 200.0e3;  ///< up-sun reach of what one column tells, 100 to 300 km (see AssumedPath)
};

/// How far a forecast may be displaced.
struct Displaceable {
    std::optional<double> lead_hours;  ///< run time to event; absent for a member of a real ensemble, whose
                                       ///< fields stand where they stand
    double half_hours = 0.0;           ///< time errs by as much either way
    bool several_steps = false;        ///< time can be shifted between steps; else it becomes distance
};

/// `count` fixed quasi-random draws; the first is the centre of every range (its drift: 15 m/s, cloud up-sun
/// and to the right still to come). The same count gives the same draws. Source: neighbourhood ensemble after
/// Theis, Hense, Damrath 2005, Meteorol. Appl. 12, 257 (idea, from memory); lattice of Korobov 1959. Widths
/// are starting rules that only logged outcomes may move: displacement N(0, 40 km + 2 km per lead hour) each
/// way, time evenly within `half_hours`; with one step, or averages, the time goes into the displacement as
/// what cloud drifts in it at 15 m/s, which no member then falls short of. Drift, for a forecast for one
/// point: 5 to 25 m/s either way.
std::vector<MemberDraw> neighbourhood(std::size_t count, const Displaceable& displaceable);

/// Value below which a share `probability` of the standard normal distribution lies; probability in (0, 1).
double normal_quantile(double probability);

}  // namespace gloam::outlook
