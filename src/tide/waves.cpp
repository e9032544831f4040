// Waves and nodal corrections after P. Schureman, Manual of Harmonic Analysis and Prediction of Tides, US
// Coast and Geodetic Survey Special Publication 98 (1958 print): table 2 and the numbered formulas. Numbers
// of formulas and constants from memory, against open programs that quote them.
#include "tide/waves.hpp"

#include <erfa.h>
#include <erfam.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "astro/time_scales.hpp"

namespace gloam::tide {
namespace {

using enum NodalTerm;
using std::numbers::pi;

constexpr std::array<Wave, 37> kWaves{{
    {"SA", {0, 0, 1, 0, 0}, 0, {}},
    {"SSA", {0, 0, 2, 0, 0}, 0, {}},
    {"MM", {0, 1, 0, -1, 0}, 0, {{{kMm, 1}}}},
    {"MSF", {0, 2, -2, 0, 0}, 0, {{{kM2, -1}}}},
    {"MF", {0, 2, 0, 0, 0}, 0, {{{kMf, 1}}}},
    {"2Q1", {1, -3, 0, 2, 0}, 1, {{{kO1, 1}}}},
    {"Q1", {1, -2, 0, 1, 0}, 1, {{{kO1, 1}}}},
    {"RHO", {1, -2, 2, -1, 0}, 1, {{{kO1, 1}}}},
    {"O1", {1, -1, 0, 0, 0}, 1, {{{kO1, 1}}}},
    {"M1", {1, 0, 0, 1, 0}, -1, {{{kM1, 1}}}},
    {"P1", {1, 1, -2, 0, 0}, 1, {}},
    {"S1", {1, 1, -1, 0, 0}, 0, {}},
    {"K1", {1, 1, 0, 0, 0}, -1, {{{kK1, 1}}}},
    {"J1", {1, 2, 0, -1, 0}, -1, {{{kJ1, 1}}}},
    {"OO1", {1, 3, 0, 0, 0}, -1, {{{kOO1, 1}}}},
    {"2N2", {2, -2, 0, 2, 0}, 0, {{{kM2, 1}}}},
    {"MU2", {2, -2, 2, 0, 0}, 0, {{{kM2, 1}}}},
    {"N2", {2, -1, 0, 1, 0}, 0, {{{kM2, 1}}}},
    {"NU2", {2, -1, 2, -1, 0}, 0, {{{kM2, 1}}}},
    {"M2", {2, 0, 0, 0, 0}, 0, {{{kM2, 1}}}},
    {"LAM2", {2, 1, -2, 1, 0}, 2, {{{kM2, 1}}}},
    {"L2", {2, 1, 0, -1, 0}, 2, {{{kL2, 1}}}},
    {"T2", {2, 2, -3, 0, 1}, 0, {}},
    {"S2", {2, 2, -2, 0, 0}, 0, {}},
    {"R2", {2, 2, -1, 0, -1}, 2, {}},
    {"K2", {2, 2, 0, 0, 0}, 0, {{{kK2, 1}}}},
    {"2SM2", {2, 4, -4, 0, 0}, 0, {{{kM2, -1}}}},
    {"2MK3", {3, -1, 0, 0, 0}, 1, {{{kM2, 2}, {kK1, -1}}}},
    {"M3", {3, 0, 0, 0, 0}, 0, {{{kM2, 1.5}}}},
    {"MK3", {3, 1, 0, 0, 0}, -1, {{{kM2, 1}, {kK1, 1}}}},
    {"MN4", {4, -1, 0, 1, 0}, 0, {{{kM2, 2}}}},
    {"M4", {4, 0, 0, 0, 0}, 0, {{{kM2, 2}}}},
    {"MS4", {4, 2, -2, 0, 0}, 0, {{{kM2, 1}}}},
    {"S4", {4, 4, -4, 0, 0}, 0, {}},
    {"M6", {6, 0, 0, 0, 0}, 0, {{{kM2, 3}}}},
    {"S6", {6, 6, -6, 0, 0}, 0, {}},
    {"M8", {8, 0, 0, 0, 0}, 0, {{{kM2, 4}}}},
}};

double square(double x) {
    return x * x;
}

/// The moon's orbit against the equator, radians.
struct LunarOrbit {
    double inclination = 0.0;    ///< I, to the equator
    double nu = 0.0;             ///< right ascension of the intersection
    double xi = 0.0;             ///< longitude of the intersection in the orbit
    double perigee = 0.0;        ///< P, of the perigee from the intersection
    double lunar_perigee = 0.0;  ///< p
};

/// Schureman page 156: obliquity 23.452 and inclination to the ecliptic 5.145 degrees.
LunarOrbit orbit_of(const Longitudes& longitudes) {
    const double node = longitudes.node.radians();
    const double half_sum = std::atan(1.01883 * std::tan(node / 2.0));
    const double half_difference = std::atan(0.64412 * std::tan(node / 2.0));
    LunarOrbit orbit;
    orbit.inclination = std::acos(0.91370 - 0.03569 * std::cos(node));
    orbit.nu = half_sum - half_difference;
    orbit.xi = node - half_sum - half_difference;
    orbit.lunar_perigee = longitudes.lunar_perigee.radians();
    orbit.perigee = orbit.lunar_perigee - orbit.xi;
    return orbit;
}

/// Factor and phase (radians) of a nodal term.
struct Swing {
    double factor = 1.0;
    double phase = 0.0;
};

/// Formula 227, phase 224.
Swing swing_of_k1(const LunarOrbit& orbit) {
    const double sin_2i = std::sin(2.0 * orbit.inclination);
    return {std::sqrt(0.8965 * square(sin_2i) + 0.6001 * sin_2i * std::cos(orbit.nu) + 0.1006),
            -std::atan2(sin_2i * std::sin(orbit.nu), sin_2i * std::cos(orbit.nu) + 0.3347)};
}

/// Formula 235, phase 232.
Swing swing_of_k2(const LunarOrbit& orbit) {
    const double sin2 = square(std::sin(orbit.inclination));
    const double twice_nu = 2.0 * orbit.nu;
    return {std::sqrt(19.0444 * square(sin2) + 2.7702 * sin2 * std::cos(twice_nu) + 0.0981),
            -std::atan2(sin2 * std::sin(twice_nu), sin2 * std::cos(twice_nu) + 0.0727)};
}

/// Formula 78.
Swing swing_of_m2(const LunarOrbit& orbit) {
    return {square(square(std::cos(orbit.inclination / 2.0))) / 0.9154, 2.0 * (orbit.xi - orbit.nu)};
}

/// Formula 75.
Swing swing_of_o1(const LunarOrbit& orbit) {
    return {std::sin(orbit.inclination) * square(std::cos(orbit.inclination / 2.0)) / 0.3800,
            2.0 * orbit.xi - orbit.nu};
}

/// Formula 215, phase 214.
Swing swing_of_l2(const LunarOrbit& orbit) {
    const Swing m2 = swing_of_m2(orbit);
    const double tan2 = square(std::tan(orbit.inclination / 2.0));
    const double cos_2p = std::cos(2.0 * orbit.perigee);
    return {m2.factor * std::sqrt(1.0 - 12.0 * tan2 * cos_2p + 36.0 * square(tan2)),
            m2.phase - std::atan2(std::sin(2.0 * orbit.perigee), 1.0 / (6.0 * tan2) - cos_2p)};
}

/// Formulas 197 and 207, phase 203; the wave's own argument holds p, which the phase takes off again.
Swing swing_of_m1(const LunarOrbit& orbit) {
    const double cos_i = std::cos(orbit.inclination);
    const double ratio = cos_i / square(std::cos(orbit.inclination / 2.0));
    const double q = std::atan2((5.0 * cos_i - 1.0) * std::sin(orbit.perigee),
                                (7.0 * cos_i + 1.0) * std::cos(orbit.perigee));
    return {swing_of_o1(orbit).factor *
                std::sqrt(0.25 + 1.5 * ratio * std::cos(2.0 * orbit.perigee) + 2.25 * square(ratio)),
            orbit.xi - orbit.nu + q - orbit.lunar_perigee};
}

/// The others: formulas 73 (Mm), 74 (Mf), 76 (J1), 77 (OO1).
Swing swing_of(NodalTerm term, const LunarOrbit& orbit) {
    const double sin_i = std::sin(orbit.inclination);
    switch (term) {
        case kNone:
            return {};
        case kMm:
            return {(2.0 / 3.0 - square(sin_i)) / 0.5021, 0.0};
        case kMf:
            return {square(sin_i) / 0.1578, -2.0 * orbit.xi};
        case kO1:
            return swing_of_o1(orbit);
        case kK1:
            return swing_of_k1(orbit);
        case kJ1:
            return {std::sin(2.0 * orbit.inclination) / 0.7214, -orbit.nu};
        case kOO1:
            return {sin_i * square(std::sin(orbit.inclination / 2.0)) / 0.0164, -2.0 * orbit.xi - orbit.nu};
        case kM1:
            return swing_of_m1(orbit);
        case kM2:
            return swing_of_m2(orbit);
        case kK2:
            return swing_of_k2(orbit);
        case kL2:
            return swing_of_l2(orbit);
    }
    return {};
}

}  // namespace

Result<Wave> wave_named(std::string_view name) {
    const auto found = std::ranges::find(kWaves, name, &Wave::name);
    if (found == kWaves.end()) {
        return fail(ErrorKind::kNotFound, fmt::format("no tidal constituent '{}' is known", name), {},
                    "leave it out only if it is small");
    }
    return *found;
}

Longitudes longitudes_at(Instant instant) {
    const astro::JulianDate tt = astro::terrestrial_time(instant);
    const double centuries = (tt.midnight - ERFA_DJ00 + tt.day_part) / ERFA_DJC;
    const double node = eraFaom03(centuries);
    const double moon = eraFaf03(centuries) + node;
    const double sun = moon - eraFad03(centuries);
    // Hour angle of the mean sun at Greenwich: half a turn at midnight.
    const double hour_angle = 2.0 * pi * astro::universal_time(instant).day_part + pi;
    return {Angle::radians(hour_angle + sun - moon),
            Angle::radians(moon),
            Angle::radians(sun),
            Angle::radians(moon - eraFal03(centuries)),
            Angle::radians(sun - eraFalp03(centuries)),
            Angle::radians(std::remainder(node, 2.0 * pi))};
}

Angle equilibrium_argument(const Wave& wave, const Longitudes& longitudes) {
    const std::array<Angle, 5> parts = {longitudes.tau, longitudes.moon, longitudes.sun,
                                        longitudes.lunar_perigee, longitudes.solar_perigee};
    Angle argument = Angle::degrees(90.0 * wave.right_angles);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        argument = argument + parts[i] * wave.multiples[i];
    }
    return argument;
}

NodalCorrection nodal_correction(const Wave& wave, const Longitudes& longitudes) {
    const LunarOrbit orbit = orbit_of(longitudes);
    NodalCorrection correction;
    for (const NodalPower& nodal : wave.nodal) {
        const Swing swing = swing_of(nodal.term, orbit);
        correction.factor *= std::pow(swing.factor, std::abs(nodal.power));
        correction.phase = correction.phase + Angle::radians(nodal.power * swing.phase);
    }
    return correction;
}

}  // namespace gloam::tide
