#pragma once

#include <functional>
#include <vector>

#include "reference/montecarlo/tracer.hpp"

namespace gloam::montecarlo {

/// A number and its standard error.
struct Figure {
    double value = 0.0;
    double error = 0.0;
};

/// The means of independent batches of paths.
struct Estimate {
    std::vector<sky::Spectrum> batches;

    sky::Spectrum mean() const;
    /// Mean and standard error of something that is linear in the spectrum, from the scatter of the batches.
    Figure figure(const std::function<double(const sky::Spectrum&)>& linear) const;
};

/// How much work an estimate is worth.
struct Effort {
    int batches = 32;
    int paths_per_batch = 512;
    std::uint64_t seed = 1;
    unsigned threads = 1;  ///< the same bytes on any number
};

Estimate radiance(const SunBeam& beam, const TracerSettings& settings, const View& view,
                  const Effort& effort);
Estimate irradiance(const SunBeam& beam, const TracerSettings& settings, const View& view,
                    const Effort& effort);

}  // namespace gloam::montecarlo
