#pragma once

#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// How packed numbers become values, in the unit of the file. Where values have no bits, all of them are
/// `reference`, without the factor: so NCEP and ECMWF write it.
///
/// Source: WMO Manual on Codes, FM 92 GRIB, regulation 92.9.4 (from memory): Y = (R + X * 2^E) * 10^-D.
/// Accuracy: equal to ecCodes to the bit, tests/reference/weather.
struct Scaling {
    double reference;  ///< R
    double step;       ///< 2^E
    double factor;     ///< 10^-D
    std::uint64_t bits;

    double value(std::uint64_t packed) const {
        return (reference + static_cast<double>(static_cast<std::int64_t>(packed)) * step) * factor;
    }
};

/// Reads the scaling of edition 1, and of a section 5 by template 5.0, 5.41 and others that begin alike. The
/// caller has checked the length.
Scaling scaling_of_edition1(const GribField& field);
Scaling scaling_of_edition2(Octets representation);

}  // namespace gloam::weather
