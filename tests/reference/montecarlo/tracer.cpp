#include "reference/montecarlo/tracer.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "reference/montecarlo/leg.hpp"

namespace gloam::montecarlo {
namespace {

constexpr double kPi = std::numbers::pi;
/// The bands that make paths: 430 to 710 nm.
constexpr std::array<std::size_t, 5> kMakers{2, 5, 8, 12, 16};
using PerMaker = std::array<double, kMakers.size()>;
/// Shape of the lobe about the sunlit horizon.
constexpr Phase kSunwardLobe{Phase::Kind::kHenyeyGreenstein, 0.6};
/// Paths that carry less than this are ended by lot.
constexpr double kFaint = 0.1;

double cosine_between(Vec3 a, Vec3 b) {
    return std::clamp(dot(a, b), -1.0, 1.0);
}

/// One path on its way.
class Walk {
  public:
    Walk(const SunBeam& beam, const TracerSettings& settings, const View& view, Stream& random,
         sky::Spectrum& sum)
        : beam_(beam),
          medium_(beam.medium()),
          settings_(settings),
          random_(random),
          sum_(sum),
          to_sun_(direction_of(view.sun_elevation_deg, 0.0)),
          point_{0.0, 0.0, medium_.radius_km + view.height_km} {
        carried_.fill(1.0);
        maker_ = static_cast<std::size_t>(random_.next() * kMakers.size());
    }

    void look(Vec3 direction) { direction_ = direction; }

    /// Starts anywhere above, as from a white Lambertian ground.
    bool look_up_anywhere() { return leave_ground(1.0); }

    void go(double u_first) {
        double u = u_first;
        for (int order = 1; order <= settings_.most_orders; ++order) {
            leg_.cast(beam_, point_, direction_, to_sun_);
            const bool on_ground = leg_.meets_ground() && falls_to_ground();
            on_ground ? meet_ground() : meet_matter(u);
            const bool leaves =
                on_ground ? leave_ground(medium_.ground_albedo)
                          : leave_matter(order == 1 ? settings_.again.near_viewer : settings_.again.deeper);
            if (!leaves || !survives()) {
                return;
            }
            u = random_.next();
        }
    }

  private:
    /// Probability that maker `m` lets the path fall to the ground at the end of the leg.
    double ground_chance(std::size_t m) const {
        return leg_.meets_ground() ? (0.2 + 0.8 * medium_.ground_albedo) * std::exp(-leg_.depth(kMakers[m]))
                                   : 0.0;
    }
    bool falls_to_ground() { return random_.next() < ground_chance(maker_); }

    /// Moves to the end of the leg.
    void meet_ground() {
        PerMaker density{};
        for (std::size_t m = 0; m < kMakers.size(); ++m) {
            density[m] = ground_chance(m);
        }
        sky::Spectrum passed;
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            passed[b] = std::exp(-leg_.depth(b));
        }
        weigh(passed, density);
        point_ = leg_.at(leg_.length_km());
        add_sun_on_ground();
    }

    /// Moves to a collision on the leg; some of them are put where the sun shines.
    void meet_matter(double u) {
        const double lit_share = leg_.lit() ? settings_.lit_share : 0.0;
        const Leg::Place place = u < lit_share ? leg_.at_lit_share(u / lit_share)
                                               : at_free_path((u - lit_share) / (1.0 - lit_share));
        PerMaker density{};
        for (std::size_t m = 0; m < kMakers.size(); ++m) {
            const std::size_t b = kMakers[m];
            const double free_path = leg_.extinction_per_km(place, b) *
                                     std::exp(-leg_.depth_at(place.columns, b)) / -std::expm1(-leg_.depth(b));
            const double lit = lit_share > 0.0 ? lit_share * leg_.lit_density_per_km(place) : 0.0;
            density[m] = (1.0 - ground_chance(m)) * (lit + (1.0 - lit_share) * free_path);
        }
        sky::Spectrum passed;
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            passed[b] = std::exp(-leg_.depth_at(place.columns, b));
        }
        weigh(passed, density);
        point_ = leg_.at(place.path_km);
        densities_ = medium_.profiles.at(astro::length(point_) - medium_.radius_km);
        add_sun_on_matter();
    }
    Leg::Place at_free_path(double u) const {
        const std::size_t band = kMakers[maker_];
        return leg_.at_depth(-std::log1p(u * std::expm1(-leg_.depth(band))), band);
    }

    /// Multiplies what the path carries by `factor` over the density with which it was made.
    void weigh(const sky::Spectrum& factor, const PerMaker& density) {
        double mean = 0.0;
        for (std::size_t m = 0; m < kMakers.size(); ++m) {
            made_[m] *= density[m];
            mean += made_[m] / kMakers.size();
        }
        for (std::size_t m = 0; m < kMakers.size(); ++m) {
            made_[m] /= mean;
        }
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            carried_[b] *= factor[b] / mean;
        }
    }

    /// The beam at the point; nothing in the shadow.
    std::optional<sky::Spectrum> beam_here() const {
        const auto place = beam_.place(height_km(), sun_zenith_rad());
        return place ? std::optional(beam_.transmission(*place)) : std::nullopt;
    }
    double height_km() const { return astro::length(point_) - medium_.radius_km; }
    double sun_zenith_rad() const { return std::acos(cosine_between(unit(point_), to_sun_)); }

    void add_sun_on_matter() {
        const auto beam = beam_here();
        if (!beam) {
            return;
        }
        const sky::Spectrum scattering =
            scattering_per_km(cosine_between(direction_, to_sun_), Again::kExact);
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            sum_[b] += carried_[b] * scattering[b] / (4.0 * kPi) * medium_.sun[b] * (*beam)[b];
        }
    }

    void add_sun_on_ground() {
        const auto beam = beam_here();
        if (!beam) {
            return;
        }
        const double slant = std::max(0.0, std::cos(beam_.apparent_zenith_rad(0.0, sun_zenith_rad())));
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            sum_[b] += carried_[b] * medium_.ground_albedo / kPi * slant * medium_.sun[b] * (*beam)[b];
        }
    }

    /// Scattering at the point times phase functions to a degree, per km.
    sky::Spectrum scattering_per_km(double cosine, int degree) const {
        sky::Spectrum sum{};
        for (std::size_t s = 0; s < kSpecies; ++s) {
            const Phase& phase = medium_.phase[s];
            const double factor = densities_[s] * (degree == Again::kExact ? phase.at(cosine)
                                                                           : phase.to_degree(degree, cosine));
            for (std::size_t b = 0; b < sky::kBands; ++b) {
                sum[b] += medium_.scattering[s][b] * factor;
            }
        }
        return sum;
    }

    /// Chooses where light came from that was scattered at the point, to a degree of exactness; false:
    /// nothing scatters here.
    bool leave_matter(int degree) {
        std::array<PerMaker, kSpecies> shares;
        if (!species_shares(shares)) {
            return false;
        }
        const Vec3 old = direction_;
        direction_ = random_.next() < settings_.sunward_share ? sunward() : scattered(shares);
        const double cosine = cosine_between(old, direction_);
        PerMaker density{};
        for (std::size_t m = 0; m < kMakers.size(); ++m) {
            double by_phase = 0.0;
            for (std::size_t s = 0; s < kSpecies; ++s) {
                by_phase += shares[s][m] * medium_.phase[s].at(cosine);
            }
            density[m] = settings_.sunward_share * lobe() + (1.0 - settings_.sunward_share) * by_phase;
        }
        // Both sides lack the same 4 pi.
        weigh(scattering_per_km(cosine, degree), density);
        return true;
    }
    /// What part of the scattering at the point is each species', for each maker.
    bool species_shares(std::array<PerMaker, kSpecies>& shares) const {
        for (std::size_t m = 0; m < kMakers.size(); ++m) {
            double sum = 0.0;
            for (std::size_t s = 0; s < kSpecies; ++s) {
                shares[s][m] = medium_.scattering[s][kMakers[m]] * densities_[s];
                sum += shares[s][m];
            }
            if (sum <= 0.0) {
                return false;
            }
            for (PerMaker& share : shares) {
                share[m] /= sum;
            }
        }
        return true;
    }
    Vec3 scattered(const std::array<PerMaker, kSpecies>& shares) {
        double u = random_.next();
        std::size_t s = 0;
        while (s + 1 < kSpecies && u >= shares[s][maker_]) {
            u -= shares[s][maker_];
            ++s;
        }
        const double cosine = medium_.phase[s].sampled_cosine(random_.next());
        return turned_from(direction_, cosine, random_.next());
    }

    /// Middle of the lobe: a little above the sun, or above where it is below the horizon.
    Vec3 lobe_axis() const { return unit(to_sun_ + 0.25 * unit(point_)); }
    double lobe() const { return kSunwardLobe.at(cosine_between(direction_, lobe_axis())); }
    Vec3 sunward() {
        const double cosine = kSunwardLobe.sampled_cosine(random_.next());
        return turned_from(lobe_axis(), cosine, random_.next());
    }

    /// Chooses where light came from that a Lambertian ground of this albedo reflects.
    bool leave_ground(double albedo) {
        const Vec3 up = unit(point_);
        direction_ = random_.next() < settings_.sunward_share
                         ? sunward()
                         : turned_from(up, std::sqrt(random_.next()), random_.next());
        const double cosine = cosine_between(up, direction_);
        if (cosine <= 0.0) {
            return false;
        }
        PerMaker density{};
        density.fill(settings_.sunward_share * lobe() / 4.0 + (1.0 - settings_.sunward_share) * cosine);
        sky::Spectrum reflected;
        reflected.fill(albedo * cosine);
        weigh(reflected, density);
        return true;
    }

    bool survives() {
        const double most = *std::max_element(carried_.begin(), carried_.end());
        const double chance = std::min(1.0, most / kFaint);
        if (random_.next() >= chance) {
            return false;
        }
        for (double& weight : carried_) {
            weight /= chance;
        }
        return true;
    }

    const SunBeam& beam_;
    const Medium& medium_;
    const TracerSettings& settings_;
    Stream& random_;
    sky::Spectrum& sum_;
    Vec3 to_sun_, point_, direction_;
    Leg leg_;
    PerSpecies densities_{};
    sky::Spectrum carried_{};  ///< over the mean density of the makers
    PerMaker made_ = [] {
        PerMaker ones;
        ones.fill(1.0);
        return ones;
    }();
    std::size_t maker_ = 0;
};

}  // namespace

void Tracer::add_radiance(const View& view, Stream& random, double u_first, sky::Spectrum& sum) const {
    Walk walk(*beam_, settings_, view, random, sum);
    walk.look(direction_of(view.elevation_deg, view.azimuth_deg));
    walk.go(u_first);
}

void Tracer::add_irradiance(const View& view, Stream& random, double u_first, sky::Spectrum& sum) const {
    sky::Spectrum through_white{};
    Walk walk(*beam_, settings_, view, random, through_white);
    if (walk.look_up_anywhere()) {
        walk.go(u_first);
    }
    for (std::size_t b = 0; b < sky::kBands; ++b) {
        sum[b] += kPi * through_white[b];
    }
}

}  // namespace gloam::montecarlo
