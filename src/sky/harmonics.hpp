#pragma once

#include <array>
#include <cstddef>

namespace gloam::sky {

/// Diffuse light and phase functions are known by their harmonics of degree 0 to 4.
inline constexpr std::size_t kDegrees = 5;
inline constexpr std::size_t kHarmonics = kDegrees * (kDegrees + 1) / 2;

/// Place of the harmonic of a degree and of an order (0 to the degree) among all.
constexpr std::size_t harmonic(std::size_t degree, std::size_t order) {
    return degree * (degree + 1) / 2 + order;
}

/// One value a harmonic. About the vertical and even about the plane of the sun, so cosines of the azimuth
/// alone.
using Harmonics = std::array<float, kHarmonics>;

/// Harmonics of a direction by its zenith angle; times cos(order * azimuth) they are whole. In Schmidt's
/// normalisation: summed over the orders of a degree, the products of two directions' harmonics are the
/// Legendre polynomial of the cosine between the directions. `cosine` from -1 to 1.
/// Source: addition theorem and recurrences, e.g. Abramowitz and Stegun 1964, 8.5.3 and 8.6.6 (from memory).
Harmonics zenith_harmonics(double cosine);

/// cos(order * azimuth) for every order.
std::array<float, kDegrees> azimuth_cosines(double cosine);

}  // namespace gloam::sky
