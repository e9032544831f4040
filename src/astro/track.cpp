#include "astro/track.hpp"

#include <array>

#include "astro/geocentric.hpp"
#include "base/check.hpp"

namespace gloam::astro {
namespace {

constexpr std::size_t kPoints = 6;
constexpr Duration::rep kPointsBefore = 2;  // nodes before the interval that holds the instant
constexpr Duration::rep kPointsAfter = 3;

Duration step_of(Body body) {
    return body == Body::kSun ? std::chrono::hours(24) : std::chrono::hours(6);
}

Duration::rep interval_of(Instant instant, Duration step) {
    const auto since_epoch = instant.time_since_epoch();
    const auto whole = since_epoch / step;
    return since_epoch < whole * step ? whole - 1 : whole;
}

/// Lagrange's weights of the nodes 0 to 5 at `x`.
std::array<double, kPoints> weights_at(double x) {
    std::array<double, kPoints> weights{};
    for (std::size_t i = 0; i < kPoints; ++i) {
        weights[i] = 1.0;
        for (std::size_t j = 0; j < kPoints; ++j) {
            if (j != i) {
                weights[i] *=
                    (x - static_cast<double>(j)) / (static_cast<double>(i) - static_cast<double>(j));
            }
        }
    }
    return weights;
}

}  // namespace

Track::Track(Body body, geo::InstantSpan span) : body_(body), step_(step_of(body)) {
    first_node_ = interval_of(span.begin, step_) - kPointsBefore;
    const Duration::rep last_node = interval_of(span.end, step_) + kPointsAfter;
    for (Duration::rep node = first_node_; node <= last_node; ++node) {
        nodes_.push_back(geocentric_place(body, Instant(node * step_)));
    }
}

Vec3 Track::place_at(Instant instant) const {
    const Duration::rep window = interval_of(instant, step_) - kPointsBefore;
    const Duration::rep first = window - first_node_;
    GLOAM_CHECK(first >= 0 && static_cast<std::size_t>(first) + kPoints <= nodes_.size());
    const Duration since_first = instant.time_since_epoch() - window * step_;
    const auto weights =
        weights_at(static_cast<double>(since_first.count()) / static_cast<double>(step_.count()));
    Vec3 place;
    for (std::size_t i = 0; i < kPoints; ++i) {
        place = place + weights[i] * nodes_[static_cast<std::size_t>(first) + i];
    }
    return to_earth_frame(place, instant);
}

BodyPosition Track::seen_from(const Station& station, Instant instant) const {
    return station.look_at(body_, place_at(instant));
}

}  // namespace gloam::astro
