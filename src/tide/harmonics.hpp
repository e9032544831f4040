#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tide/table.hpp"
#include "tide/waves.hpp"

namespace gloam::tide {

/// The source of a table that is predicted here. Such a table never moves the time to leave later than one
/// from its issuer would.
inline constexpr std::string_view kHarmonicSource =
    "harmonic constants, not from an official table: get one; not for navigation";

/// One harmonic constant of a port.
struct Constituent {
    Wave wave;
    double amplitude_m = 0.0;
    Angle phase_lag;  ///< on the equilibrium argument at Greenwich
};

/// The harmonic constants of a port.
struct HarmonicPort {
    std::string port;
    std::string datum;
    CivilDate issued;     ///< of the constants
    double mean_m = 0.0;  ///< mean water above the datum
    std::vector<Constituent> constituents;
};

/// The astronomical tide of a port: mean + sum of f H cos(V + u - g), with V, u and f at the instant itself
/// (Schureman 1958; form as in Foreman 1977, Manual for Tidal Heights Analysis and Prediction, from memory).
///
/// Accuracy: within 0.02 m and 3 min of another program with the same constants; within 0.08 m rms of the
/// water measured at Honolulu in 2010 about its mean (tests/reference/tide). Wind, air pressure and swell are
/// not in it.
TideHeight predicted_height(const HarmonicPort& port, Instant instant);

/// A table of the predicted tide, from before `span` begins to after it ends: high and low water to the
/// second, and heights at every ten minutes between. Its source is kHarmonicSource. Two turns of the
/// tide within ten minutes are missed.
TideTable predicted_table(const HarmonicPort& port, geo::InstantSpan span);

}  // namespace gloam::tide
