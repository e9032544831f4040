#pragma once

#include <optional>
#include <string>

#include "base/error.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// Type of a surface that is not there.
inline constexpr long kNoSurface = 255;

/// One of the two surfaces that bound where a message holds, its value in the unit of the table (Pa, m).
struct Surface {
    long type = kNoSurface;
    double value = 0.0;
};
struct Surfaces {
    Surface first;
    Surface second;
};

/// What a message says of its product by fixed octets. Edition 1: process and surfaces, in the numbers of
/// edition 2. Edition 2: what section 4 holds by one of the templates that are used: 4.0 and, of a member,
/// 4.1; over spans of time 4.8 and 4.11; optical properties of aerosol 4.48 and 4.49.
struct GribProduct {
    long generating_process = 0;
    Surfaces surfaces;
    long time_unit = 0;              ///< code table 4.4
    std::int64_t forecast_time = 0;  ///< in that unit

    struct Member {
        long number = 0;
        long members = 0;
    };
    std::optional<Member> member;

    /// The span over which values are taken together.
    struct Span {
        long ranges = 1;     ///< further ones are spans of spans
        long process = 0;    ///< code table 4.10
        long increment = 0;  ///< code table 4.11
        long unit = 0;       ///< code table 4.4
        std::int64_t length = 0;
    };
    std::optional<Span> span;
};

/// Number of the product template, edition 2.
long product_template(const GribField& field);

/// Whether it is one of those that are used, and one for the optical properties of aerosol.
bool is_used_product(long number);
bool is_of_aerosol_optics(long number);

/// Reads the product, in edition 2 by a template that is used. Error in words if section 4 is too short for
/// its template.
tl::expected<GribProduct, std::string> product_of(const GribField& field);

/// Number of five octets as the tables scale it: a power of ten that divides it, then the number itself; 0 if
/// either is written as missing. The caller has checked the length.
double scaled_number(Octets octets, std::size_t offset);

}  // namespace gloam::weather
