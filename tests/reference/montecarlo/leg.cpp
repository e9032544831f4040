#include "reference/montecarlo/leg.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::montecarlo {
void Leg::cast(const SunBeam& beam, Vec3 start, Vec3 direction, Vec3 to_sun) {
    medium_ = &beam.medium();
    start_ = start;
    direction_ = direction;
    const double r0 = std::clamp(astro::length(start), medium_->radius_km, medium_->top_radius_km());
    const double along = dot(start, direction);
    const double ground = path_in_km(r0, along, medium_->radius_km);
    meets_ground_ = ground < kNever_km;
    // A path that leaves from the very top has a length all the same.
    const double end =
        std::max(1e-6, meets_ground_ ? ground : path_out_km(r0, along, medium_->top_radius_km()));

    const auto radius = [&](double s) { return std::sqrt(r0 * r0 + s * (2.0 * along + s)); };
    const auto density = [&](double s) { return medium_->profiles.at(radius(s) - medium_->radius_km); };
    ends_km_.assign(1, 0.0);
    columns_.assign(1, PerSpecies{});
    PerSpecies before = density(0.0);
    while (ends_km_.back() < end) {
        const double s = ends_km_.back();
        const double r = radius(s);
        const double climb = medium_->step_km + medium_->step_growth * std::max(0.0, r - medium_->radius_km);
        const double slope = std::abs(along + s) / r;
        double next = s + 2.0 * climb / (slope + std::sqrt(slope * slope + 2.0 * climb / r));
        if (next > end - 1e-9 * climb) {
            next = end;
        }
        const PerSpecies middle = density(0.5 * (s + next));
        const PerSpecies after = density(next);
        PerSpecies column = columns_.back();
        for (std::size_t i = 0; i < kSpecies; ++i) {
            column[i] += (next - s) / 6.0 * (before[i] + 4.0 * middle[i] + after[i]);
        }
        ends_km_.push_back(next);
        columns_.push_back(column);
        before = after;
    }
    lit_.resize(ends_km_.size() - 1);
    lit_sum_ = 0.0;
    for (std::size_t i = 0; i < lit_.size(); ++i) {
        lit_[i] = lit_in_step(beam, i, to_sun);
        lit_sum_ += lit_[i];
    }
}

double Leg::lit_in_step(const SunBeam& beam, std::size_t step, Vec3 to_sun) const {
    const Place middle = within(step, 0.5);
    const Vec3 point = at(middle.path_km);
    const double r = astro::length(point);
    const auto place =
        beam.place(r - medium_->radius_km, std::acos(std::clamp(dot(point, to_sun) / r, -1.0, 1.0)));
    if (!place) {
        return 0.0;
    }
    double scattered = 0.0;
    for (std::size_t s = 0; s < kSpecies; ++s) {
        scattered += medium_->scattering[s][kLitBand] * (columns_[step + 1][s] - columns_[step][s]);
    }
    return scattered * std::exp(-depth_at(middle.columns, kLitBand)) * beam.transmission(*place, kLitBand);
}

double Leg::depth_at(const PerSpecies& columns, std::size_t band) const {
    double depth = 0.0;
    for (std::size_t s = 0; s < kSpecies; ++s) {
        depth += medium_->depth[s][band] * columns[s];
    }
    return depth;
}

Leg::Place Leg::within(std::size_t step, double share) const {
    Place place{std::lerp(ends_km_[step], ends_km_[step + 1], share), step, {}};
    for (std::size_t s = 0; s < kSpecies; ++s) {
        place.columns[s] = columns_[step][s] + share * (columns_[step + 1][s] - columns_[step][s]);
    }
    return place;
}

Leg::Place Leg::at_depth(double depth, std::size_t band) const {
    const auto above = std::upper_bound(
        columns_.begin() + 1, columns_.end() - 1, depth,
        [&](double wanted, const PerSpecies& columns) { return wanted < depth_at(columns, band); });
    const auto step = static_cast<std::size_t>(above - columns_.begin()) - 1;
    const double from = depth_at(columns_[step], band);
    const double to = depth_at(columns_[step + 1], band);
    return within(step, to > from ? std::clamp((depth - from) / (to - from), 0.0, 1.0) : 0.5);
}

Leg::Place Leg::at_lit_share(double u) const {
    double rest = u * lit_sum_;
    std::size_t step = 0;
    while (step + 1 < lit_.size() && rest >= lit_[step]) {
        rest -= lit_[step];
        ++step;
    }
    return within(step, lit_[step] > 0.0 ? std::min(1.0, rest / lit_[step]) : 0.5);
}

double Leg::lit_density_per_km(const Place& place) const {
    return lit_[place.step] / lit_sum_ / (ends_km_[place.step + 1] - ends_km_[place.step]);
}

double Leg::extinction_per_km(const Place& place, std::size_t band) const {
    return (depth_at(columns_[place.step + 1], band) - depth_at(columns_[place.step], band)) /
           (ends_km_[place.step + 1] - ends_km_[place.step]);
}

}  // namespace gloam::montecarlo
