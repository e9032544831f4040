#include "reference/montecarlo/cloud_tracer.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/parallel.hpp"

namespace gloam::montecarlo {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr int kMostCollisions = 3000;
/// Sines of the sun's elevation below this are not told from it when the lit skin is sought.
constexpr double kLeastSunSlope = 0.004;
/// Deeper than this it is dark.
constexpr double kDarkDepth = 15.0;

/// The layer with its pattern moved to some place.
class PlacedLayer {
  public:
    PlacedLayer(const BrokenLayer& layer, const CloudMap& map, Stream& random)
        : layer_(layer),
          map_(map),
          shift_x_km_(map.size_km() * random.next()),
          shift_y_km_(map.size_km() * random.next()) {}

    /// Heights between which there is any cloud.
    double low_km() const { return layer_.base_km - map_.step_km(); }
    double high_km() const { return layer_.top_km + map_.step_km(); }
    double extinction_per_km() const {
        return layer_.optical_depth * (1.0 - layer_.phase->peak_share()) / (layer_.top_km - layer_.base_km);
    }
    double element_km() const { return map_.element_km(); }
    /// Whether there is cloud at a place over the ground, at a height.
    bool cloudy(double x_km, double y_km, double height_km) const {
        const double u = x_km + shift_x_km_;
        const double v = y_km + shift_y_km_;
        if (x_km > layer_.edge_km || !map_.cloudy(u, v)) {
            return false;
        }
        const double height = height_km - map_.lift_km(u, v);
        return height >= layer_.base_km && height <= layer_.top_km;
    }
    /// Along x, the next border between pieces.
    double next_border_km(double x_km) const {
        const double place = (x_km + shift_x_km_) / element_km();
        return (std::floor(place + 1e-9) + 1.0) * element_km() - shift_x_km_;
    }

  private:
    const BrokenLayer& layer_;
    const CloudMap& map_;
    double shift_x_km_, shift_y_km_;
};

/// Place over the ground: x towards the sun, y across.
struct Ground {
    double x_km, y_km, height_km;
};

/// Height along a sun ray: a parabola over the sphere, on the radius that gives the grazing ray its angle.
class SunPath {
  public:
    SunPath(const Medium& air, double height_km, double apparent_zenith_rad)
        : height_km_(height_km), slope_(std::cos(apparent_zenith_rad)) {
        const double dip = grazing_zenith_rad(air, height_km) - kPi / 2.0;
        radius_km_ = height_km * std::cos(dip) / (1.0 - std::cos(dip));
    }
    double height_at(double s) const { return height_km_ + s * slope_ + s * s / (2.0 * radius_km_); }
    /// Where it stands at `height_km` on its way up, from a height not below it.
    double last_at(double height_km) const {
        return radius_km_ *
               (-slope_ +
                std::sqrt(std::max(0.0, slope_ * slope_ + 2.0 * (height_km - height_km_) / radius_km_)));
    }
    /// Where it falls through `height_km`, or infinite.
    double first_at(double height_km) const {
        const double discriminant = slope_ * slope_ + 2.0 * (height_km - height_km_) / radius_km_;
        return slope_ >= 0.0 || discriminant <= 0.0 ? kNever_km
                                                    : radius_km_ * (-slope_ - std::sqrt(discriminant));
    }

  private:
    double height_km_, slope_, radius_km_;
};

class CloudWalk {
  public:
    CloudWalk(const SunBeam& beam, const PlacedLayer& layer, const CloudPhase& phase, Vec3 to_sun,
              Stream& random, sky::Spectrum& sum)
        : beam_(beam), layer_(layer), phase_(phase), to_sun_(to_sun), random_(random), sum_(sum) {}

    /// Follows a path that enters the layer from below.
    void go(Vec3 point, Vec3 direction) {
        bool enters = true;
        for (int i = 0; i < kMostCollisions && fly(point, direction, enters); ++i) {
            const double cosine = phase_.sampled_cosine(random_.next());
            direction = turned_from(direction, cosine, random_.next());
            enters = false;
        }
    }

  private:
    double radius_km() const { return beam_.medium().radius_km; }
    Ground ground(Vec3 p) const {
        const double r = astro::length(p);
        return {radius_km() * std::atan2(p.x, p.z), radius_km() * std::asin(p.y / r), r - radius_km()};
    }

    /// Moves to the next collision; false if the path leaves the layer. Sunlight is taken up at the collision
    /// and, since a low sun lights no more than the skin of a layer, at a place drawn near the lit face where
    /// the path crosses that. The density of collisions, and of drawn places that are reached, have the
    /// transmission in common: the balance heuristic weighs both by extinction / (extinction + density
    /// drawn).
    bool fly(Vec3& point, Vec3 direction, bool enters) {
        const double r = astro::length(point);
        const double along = dot(point, direction);
        const double out_above = path_out_km(r, along, radius_km() + layer_.high_km());
        const double out_below = enters ? kNever_km : path_in_km(r, along, radius_km() + layer_.low_km());
        const double end = std::min(out_above, out_below);
        const double sun_slope = dot(unit(point), to_sun_);
        const bool crosses = sun_slope < 0.0 ? enters || out_below < out_above : out_above < out_below;
        const Skin skin{crosses, enters && sun_slope < 0.0,
                        layer_.extinction_per_km() * std::abs(dot(unit(point + end * direction), direction)) /
                            std::max(std::abs(sun_slope), kLeastSunSlope),
                        end};
        const double drawn = crosses ? skin.drawn_at(random_.next()) : 0.0;
        const double met = free_path(point, direction, end);
        if (crosses && drawn < met) {
            const Vec3 at = point + drawn * direction;
            if (cloudy(at)) {
                add_sun(at, direction, 1.0 / (layer_.extinction_per_km() + skin.density(drawn)));
            }
        }
        if (met >= end) {
            return false;
        }
        point = point + met * direction;
        add_sun(point, direction, 1.0 / (layer_.extinction_per_km() + skin.density(met)));
        return true;
    }

    /// How places near the lit face are drawn on a flight of length `end`.
    struct Skin {
        bool crossed;
        bool at_start;  ///< of the flight, or at its end
        double rate_per_km;
        double end;

        double drawn_at(double u) const {
            const double away = -std::log1p(u * std::expm1(-rate_per_km * end)) / rate_per_km;
            return at_start ? away : end - away;
        }
        double density(double s) const {
            const double away = at_start ? s : end - s;
            return crossed ? rate_per_km * std::exp(-rate_per_km * away) / -std::expm1(-rate_per_km * end)
                           : 0.0;
        }
    };

    bool cloudy(Vec3 point) const {
        const Ground g = ground(point);
        return layer_.cloudy(g.x_km, g.y_km, g.height_km);
    }
    /// Path to the next collision with cloud; collisions with the gaps are drawn too, and passed over. At
    /// least `end` if the path leaves first.
    double free_path(Vec3 point, Vec3 direction, double end) {
        double s = 0.0;
        do {
            s -= std::log(random_.next()) / layer_.extinction_per_km();
        } while (s < end && !cloudy(point + s * direction));
        return s;
    }

    /// Adds the sunlight that is scattered at a place of the cloud, times extinction and `weight_km`.
    void add_sun(Vec3 point, Vec3 direction, double weight_km) {
        const Ground g = ground(point);
        const Vec3 up = unit(point);
        const double zenith = std::acos(std::clamp(dot(up, to_sun_), -1.0, 1.0));
        const auto place = beam_.place(g.height_km, zenith);
        if (!place) {
            return;
        }
        const double seen = beam_.apparent_zenith_rad(g.height_km, zenith);
        const double depth = depth_to_sun(g, SunPath(beam_.medium(), g.height_km, seen));
        if (depth > kDarkDepth) {
            return;
        }
        const Vec3 level = unit(to_sun_ - std::cos(zenith) * up);
        const double cosine = dot(direction, std::cos(seen) * up + std::sin(seen) * level);
        const double weight =
            weight_km * layer_.extinction_per_km() * phase_.at(cosine) / (4.0 * kPi) * std::exp(-depth);
        const sky::Spectrum t = beam_.transmission(*place);
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            sum_[b] += weight * t[b] * beam_.medium().sun[b];
        }
    }

    /// Optical depth of cloud between a point of the layer and the sun.
    double depth_to_sun(const Ground& g, const SunPath& path) const {
        const double falls_out = path.first_at(layer_.low_km());
        const double leaves = path.last_at(layer_.high_km());
        if (falls_out >= leaves) {
            return depth_between(g, path, 0.0, leaves);
        }
        const double near = depth_between(g, path, 0.0, falls_out);
        return near > kDarkDepth ? near
                                 : near + depth_between(g, path, path.last_at(layer_.low_km()), leaves);
    }
    double depth_between(const Ground& g, const SunPath& path, double from, double to) const {
        double depth = 0.0;
        double s = from;
        while (s < to && depth < kDarkDepth) {
            const double next = std::min(to, layer_.next_border_km(g.x_km + s) - g.x_km);
            const double middle = 0.5 * (s + next);
            if (layer_.cloudy(g.x_km + middle, g.y_km, path.height_at(middle))) {
                depth += (next - s) * layer_.extinction_per_km();
            }
            s = next;
        }
        return depth;
    }

    const SunBeam& beam_;
    const PlacedLayer& layer_;
    const CloudPhase& phase_;
    Vec3 to_sun_;
    Stream& random_;
    sky::Spectrum& sum_;
};

/// Transmission of clear air along `path_km` from a viewer on the ground: Simpson's rule.
sky::Spectrum air_between(const Medium& air, Vec3 from, Vec3 direction, double path_km) {
    constexpr int kSteps = 200;
    PerSpecies columns{};
    const auto density = [&](double s) {
        return air.profiles.at(astro::length(from + s * direction) - air.radius_km);
    };
    for (int i = 0; i < kSteps; ++i) {
        const PerSpecies a = density(path_km * i / kSteps);
        const PerSpecies b = density(path_km * (i + 0.5) / kSteps);
        const PerSpecies c = density(path_km * (i + 1) / kSteps);
        for (std::size_t s = 0; s < kSpecies; ++s) {
            columns[s] += path_km / kSteps * (a[s] + 4.0 * b[s] + c[s]) / 6.0;
        }
    }
    sky::Spectrum passed;
    for (std::size_t b = 0; b < sky::kBands; ++b) {
        double depth = 0.0;
        for (std::size_t s = 0; s < kSpecies; ++s) {
            depth += air.depth[s][b] * columns[s];
        }
        passed[b] = std::exp(-depth);
    }
    return passed;
}

}  // namespace

Estimate beam_lit_cloud(const SunBeam& beam, const BrokenLayer& layer, const View& view,
                        const Effort& effort) {
    const CloudMap map(layer.pattern, effort.seed);
    const Medium& air = beam.medium();
    const Vec3 eye{0.0, 0.0, air.radius_km};
    const Vec3 direction = direction_of(view.elevation_deg, view.azimuth_deg);
    const Vec3 to_sun = direction_of(view.sun_elevation_deg, 0.0);
    const double entry_km =
        path_out_km(air.radius_km, dot(eye, direction), air.radius_km + layer.base_km - map.step_km());
    const sky::Spectrum passed = air_between(air, eye, direction, entry_km);
    Estimate estimate;
    estimate.batches.resize(static_cast<std::size_t>(effort.batches));
    parallel_for(
        estimate.batches.size(),
        [&](std::size_t batch) {
            sky::Spectrum& sum = estimate.batches[batch];
            for (int path = 0; path < effort.paths_per_batch; ++path) {
                Stream random(effort.seed, batch, static_cast<std::uint64_t>(path));
                const PlacedLayer placed(layer, map, random);
                CloudWalk(beam, placed, *layer.phase, to_sun, random, sum)
                    .go(eye + entry_km * direction, direction);
            }
            for (std::size_t b = 0; b < sky::kBands; ++b) {
                sum[b] *= passed[b] / effort.paths_per_batch;
            }
        },
        effort.threads);
    return estimate;
}

}  // namespace gloam::montecarlo
