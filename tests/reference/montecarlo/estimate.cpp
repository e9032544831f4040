#include "reference/montecarlo/estimate.hpp"

#include <cmath>

#include "base/parallel.hpp"

namespace gloam::montecarlo {
namespace {

/// Means of batches of `add_path(random, u_first, sum)`; the first collisions of a batch are spread evenly.
template <class AddPath>
Estimate estimated(const Effort& effort, const AddPath& add_path) {
    Estimate estimate;
    estimate.batches.resize(static_cast<std::size_t>(effort.batches));
    parallel_for(
        estimate.batches.size(),
        [&](std::size_t batch) {
            sky::Spectrum& sum = estimate.batches[batch];
            for (int path = 0; path < effort.paths_per_batch; ++path) {
                Stream random(effort.seed, batch, static_cast<std::uint64_t>(path));
                add_path(random, (path + random.next()) / effort.paths_per_batch, sum);
            }
            for (double& value : sum) {
                value /= effort.paths_per_batch;
            }
        },
        effort.threads);
    return estimate;
}

}  // namespace

sky::Spectrum Estimate::mean() const {
    sky::Spectrum sum{};
    for (const sky::Spectrum& batch : batches) {
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            sum[b] += batch[b] / static_cast<double>(batches.size());
        }
    }
    return sum;
}

Figure Estimate::figure(const std::function<double(const sky::Spectrum&)>& linear) const {
    const auto count = static_cast<double>(batches.size());
    const double value = linear(mean());
    double squares = 0.0;
    for (const sky::Spectrum& batch : batches) {
        const double off = linear(batch) - value;
        squares += off * off;
    }
    return {value, std::sqrt(squares / (count - 1.0) / count)};
}

Estimate radiance(const SunBeam& beam, const TracerSettings& settings, const View& view,
                  const Effort& effort) {
    const Tracer tracer(beam, settings);
    return estimated(effort, [&](Stream& random, double u_first, sky::Spectrum& sum) {
        tracer.add_radiance(view, random, u_first, sum);
    });
}

Estimate irradiance(const SunBeam& beam, const TracerSettings& settings, const View& view,
                    const Effort& effort) {
    const Tracer tracer(beam, settings);
    return estimated(effort, [&](Stream& random, double u_first, sky::Spectrum& sum) {
        tracer.add_irradiance(view, random, u_first, sum);
    });
}

}  // namespace gloam::montecarlo
