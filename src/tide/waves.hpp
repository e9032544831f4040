#pragma once

#include <array>
#include <string_view>

#include "base/angle.hpp"
#include "base/error.hpp"
#include "base/instant.hpp"

namespace gloam::tide {

/// Terms of the tide whose strength and phase swing with the moon's node (18.6 years) and perigee.
enum class NodalTerm { kNone, kMm, kMf, kO1, kK1, kJ1, kOO1, kM1, kM2, kK2, kL2 };

/// A nodal term to a power: of a term times itself, the half of it, or its reverse.
struct NodalPower {
    NodalTerm term = NodalTerm::kNone;
    double power = 0.0;
};

/// One harmonic of the tide. Its equilibrium argument is a sum of multiples of the lunar time tau, the mean
/// longitudes s of the moon, h of the sun, p of the lunar and p' of the solar perigee, and right angles.
struct Wave {
    std::string_view name;
    std::array<int, 5> multiples{};  ///< of tau, s, h, p, p'
    int right_angles = 0;
    std::array<NodalPower, 2> nodal{};
};

/// The wave of a name as the US tide service writes it, e.g. "M2", "LAM2"; its 37 are known. Error
/// (kNotFound): another name.
Result<Wave> wave_named(std::string_view name);

/// The mean motions of moon and sun at an instant.
struct Longitudes {
    Angle tau;            ///< mean lunar time at Greenwich
    Angle moon;           ///< s
    Angle sun;            ///< h
    Angle lunar_perigee;  ///< p
    Angle solar_perigee;  ///< p'
    Angle node;           ///< N, the moon's ascending node; -180 to 180 degrees
};

/// The mean longitudes at an instant, by the fundamental arguments of the IERS Conventions 2003 (ERFA).
Longitudes longitudes_at(Instant instant);

/// A wave's equilibrium argument at Greenwich, V of the literature; in whole turns beyond 360 degrees.
Angle equilibrium_argument(const Wave& wave, const Longitudes& longitudes);

/// What the node and the perigee make of a wave: the factor of its amplitude and what its argument gains,
/// f and u of the literature.
struct NodalCorrection {
    double factor = 1.0;
    Angle phase;
};

/// The nodal correction of a wave, by Schureman's closed forms at the instant itself.
NodalCorrection nodal_correction(const Wave& wave, const Longitudes& longitudes);

}  // namespace gloam::tide
