#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "sky/air_ray.hpp"
#include "sky/atmosphere.hpp"
#include "sky/beam.hpp"
#include "sky/harmonics.hpp"

namespace gloam::sky {

/// Light scattered at least once, by height and true zenith angle of the sun at the point (spherical
/// symmetry), for the sun at 1 au: its mean over the sphere J (W m-2 sr-1 nm-1); the diffuse fluxes down and
/// up (W m-2 nm-1); and how it is spread over the sphere, as the means over the sphere of light times
/// harmonic, over J.
class DiffuseField {
  public:
    static constexpr std::size_t kRows = 40;  ///< heights 100 km (i/39)^2
    static constexpr std::size_t kFields = 3;
    enum class Kind : std::size_t { kMean, kDown, kUp };
    /// Of degree 1 and more; that of degree 0 is J.
    static constexpr std::size_t kMoments = kHarmonics - 1;

    static std::span<const double> zenith_nodes_deg();
    static double row_height_m(std::size_t row);
    static std::size_t places() { return kRows * zenith_nodes_deg().size(); }

    /// Logarithms of J and of the fluxes, [kind][row][node][band].
    using LnValues = std::vector<float>;
    /// Moments over J, which lie between -1 and 1, in units of 1/32767: [row][node][harmonic - 1][band].
    using Moments = std::vector<std::int16_t>;

    DiffuseField() : ln_(kFields * places() * kBands, -80.0F), moments_(kMoments * places() * kBands) {}
    DiffuseField(LnValues ln_values, Moments moments)
        : ln_(std::move(ln_values)), moments_(std::move(moments)) {}

    /// Where a point lies in the table. Heights are clamped to 0..100 km, zenith angles to 0..118 deg.
    struct Place {
        std::size_t row, node;
        float row_share, node_share;
    };
    static Place place(double height_m, double sun_zenith_rad);

    /// ln of one field at a place; interpolated linearly in the logarithm.
    void ln_at(Kind kind, const Place& place, FloatSpectrum& ln_value) const;
    Spectrum at(Kind kind, double height_m, double sun_zenith_rad) const;

    /// What a step of a ray scatters towards the ray's start (W m-2 sr-1 nm-1 per metre): the sum over the
    /// orders m of `series[m]` cos(m azimuth of the sun from the ray). Light is folded with the phase
    /// functions' series to degree 4; moments are interpolated linearly. Accuracy: docs/sky-check.md.
    void scatter(const AirStep& step, const Place& place, FloatSpectrum (&series)[kDegrees]) const;

    /// One stored value, for building the table.
    float& ln_value(Kind kind, std::size_t row, std::size_t node, std::size_t band);
    /// One stored moment over J; beyond -1 or 1 it is that.
    void set_moment(std::size_t row, std::size_t node, std::size_t harmonic, std::size_t band, double value);

    std::span<const float> ln_values() const { return ln_; }
    std::span<const std::int16_t> moments() const { return moments_; }

    /// Geometric mixture: ln = sum of weight_i * ln_i; the moments over J likewise, without the logarithm.
    /// The weights must add up to 1.
    static DiffuseField mixture(std::span<const DiffuseField* const> fields, std::span<const double> weights);

  private:
    LnValues ln_;
    Moments moments_;
};

/// The sum of a series over the orders at one azimuth; no less than nothing, for a series cut off at degree 4
/// may swing below it.
void sum_of_orders(const FloatSpectrum (&series)[kDegrees], const std::array<float, kDegrees>& cosines,
                   FloatSpectrum& sum);

/// How finely the successive orders of scattering are solved.
struct SolverSettings {
    int orders = 6;
    std::size_t degree = kDegrees - 1;  ///< of the last harmonics that are kept; 0: light spread evenly
    int zeniths_per_hemisphere = 10;  ///< Gauss nodes u with elevation 90 deg u^2: they crowd at the horizon
    int azimuths = 6;                 ///< over half the circle
    int steps = 36;                   ///< along a ray, s = s_max (i/n)^2
    unsigned threads = 0;             ///< 0: one per core
};

/// Solves the diffuse light of an atmosphere by successive orders of scattering: order 1 with exact phase
/// functions, each next order from the harmonics to degree 4 of the one before; the ground reflects every
/// order. Accuracy: docs/sky-check.md. Same bytes on any number of threads.
DiffuseField solve_diffuse(const Bands& bands, const ColumnTable& columns, const Atmosphere& atmosphere,
                           const SolverSettings& settings = {});

}  // namespace gloam::sky
