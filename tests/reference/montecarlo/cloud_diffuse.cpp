#include "reference/montecarlo/cloud_diffuse.hpp"

#include <cmath>
#include <numbers>

#include "base/parallel.hpp"
#include "reference/montecarlo/random.hpp"

namespace gloam::montecarlo {
namespace {

/// Upward, as Lambertian ground sends light.
Vec3 off_the_ground(Stream& random) {
    const double square = random.next();
    const double turn = 2.0 * std::numbers::pi * random.next();
    const double across = std::sqrt(1.0 - square);
    return {across * std::cos(turn), across * std::sin(turn), std::sqrt(square)};
}

/// Follows a path backward from the ground until it leaves the layer above: the share of light that is left
/// of it on the way.
double followed(const BrokenLayer& layer, const CloudMap& map, double ground_albedo, Stream& random) {
    const double extinction_per_km =
        layer.optical_depth * (1.0 - layer.phase->peak_share()) / (layer.top_km - layer.base_km);
    double left = 1.0;
    Vec3 point{map.size_km() * random.next(), map.size_km() * random.next(), 0.0};
    Vec3 direction = off_the_ground(random);
    while (true) {
        if (point.z < layer.base_km) {  // up to the base
            point = point + (layer.base_km - point.z) / direction.z * direction;
        }
        // Collisions with the gaps are drawn too, and passed over.
        point = point - std::log(random.next()) / extinction_per_km * direction;
        if (point.z > layer.top_km) {
            return left;
        }
        if (point.z < layer.base_km) {
            point = point - point.z / direction.z * direction;
            direction = off_the_ground(random);
            left *= ground_albedo;
        } else if (map.cloudy(point.x, point.y)) {
            direction = turned_from(direction, layer.phase->sampled_cosine(random.next()), random.next());
        }
    }
}

}  // namespace

Figure diffuse_left_under(const BrokenLayer& layer, double ground_albedo, const Effort& effort) {
    const CloudMap map(layer.pattern, effort.seed);
    Estimate estimate;
    estimate.batches.resize(static_cast<std::size_t>(effort.batches));
    parallel_for(
        estimate.batches.size(),
        [&](std::size_t batch) {
            double sum = 0.0;
            for (int path = 0; path < effort.paths_per_batch; ++path) {
                Stream random(effort.seed, batch, static_cast<std::uint64_t>(path));
                sum += followed(layer, map, ground_albedo, random);
            }
            estimate.batches[batch].fill(sum / effort.paths_per_batch);
        },
        effort.threads);
    return estimate.figure([](const sky::Spectrum& s) { return s[0]; });
}

}  // namespace gloam::montecarlo
