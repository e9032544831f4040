#include "weather/grib/scaling.hpp"

#include <bit>
#include <cmath>

namespace gloam::weather {
namespace {

/// Factor by factor as ecCodes does it, for the last digit's sake: for a tenth of a tenth there is more than
/// one double.
double ten_to_minus(std::int64_t decimal_scale) {
    double factor = 1.0;
    for (; decimal_scale > 0; --decimal_scale) {
        factor /= 10.0;
    }
    for (; decimal_scale < 0; ++decimal_scale) {
        factor *= 10.0;
    }
    return factor;
}

double two_to(std::int64_t binary_scale) {
    return std::ldexp(1.0, static_cast<int>(binary_scale));
}

/// Floating point of edition 1, which is that of the IBM 360: sign, power of 16 less 64, fraction of 24 bits.
double ibm_float(Octets octets, std::size_t offset) {
    const std::uint64_t number = big_endian(octets, offset, 4);
    const auto power = static_cast<int>((number >> 24U) & 0x7FU);
    const double magnitude = std::ldexp(static_cast<double>(number & 0xFFFFFFU), 4 * (power - 64) - 24);
    return (number >> 31U) == 0 ? magnitude : -magnitude;
}

}  // namespace

Scaling scaling_of_edition1(const GribField& field) {
    return {ibm_float(field.data, 6), two_to(signed_big_endian(field.data, 4, 2)),
            ten_to_minus(signed_big_endian(field.identification, 26, 2)), big_endian(field.data, 10, 1)};
}

Scaling scaling_of_edition2(Octets representation) {
    const auto reference =
        std::bit_cast<float>(static_cast<std::uint32_t>(big_endian(representation, 11, 4)));
    return {static_cast<double>(reference), two_to(signed_big_endian(representation, 15, 2)),
            ten_to_minus(signed_big_endian(representation, 17, 2)), big_endian(representation, 19, 1)};
}

}  // namespace gloam::weather
