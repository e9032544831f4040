#include "outlook/light_verdict.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

#include "air/standard_atmosphere.hpp"

namespace gloam::outlook {
namespace {

constexpr double kLeastCanvas = 0.10;  // visible cover below which a layer is no canvas
constexpr double kHiding = 0.60;       // low cover from which it counts as hiding the rest
constexpr double kOpenEnough = 0.35;   // mean free share from which the path counts as open
constexpr double kOutside_m = 10.0;
constexpr std::array kAlong_m{0.0, 50.0e3, 100.0e3};

/// Mean cover of a layer over the sky in view, within 100 km of the viewer.
double near_cover(const sky::CloudField& clouds, std::size_t layer) {
    double sum = 0.0;
    int count = 0;
    for (double along_m = -100.0e3; along_m <= 100.0e3; along_m += 25.0e3) {
        for (double aside_m = -80.0e3; aside_m <= 80.0e3; aside_m += 40.0e3) {
            sum += clouds.cover(layer, along_m, aside_m);
            ++count;
        }
    }
    return sum / count;
}

double zenith_rad(const Moment& moment, double along_m) {
    return std::numbers::pi / 2.0 - moment.sun.elevation.radians() - along_m / air::kEarthRadius_m;
}

/// Index of the middle band of the beam, near the eye's peak (570 nm).
constexpr std::size_t kYellow = 9;

void judge_path(const Moment& moment, const sky::BeamTable& beam, const sky::CloudField& clouds,
                LightVerdict& verdict) {
    const double from_m = verdict.canvas_base_m - kOutside_m;
    double worst = 0.0;
    double open = 0.0;
    for (const double along_m : kAlong_m) {
        const double apparent_rad = beam.columns().apparent_zenith_rad(from_m, zenith_rad(moment, along_m));
        double ln_free = 0.0;
        for (const auto& passage : clouds.passages({along_m, 0.0, from_m}, apparent_rad)) {
            ln_free += passage.ln_free;
            if (passage.ln_free < worst) {
                worst = passage.ln_free;
                verdict.blocker = passage.layer;
                verdict.blocked_from_m = passage.from_m;
                verdict.blocked_to_m = passage.to_m;
            }
        }
        open += std::exp(ln_free) / static_cast<double>(kAlong_m.size());
    }
    verdict.open_share = open;
    verdict.verdict = open >= kOpenEnough ? Verdict::kOpen : Verdict::kShut;
}

}  // namespace

std::size_t best_lit_moment(std::span<const Moment> moments, const sky::BeamTable& beam, double base_m) {
    std::size_t best = 0;
    double most = -1.0;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        if (!is_after(moments[i].sun.elevation)) {
            continue;
        }
        const double zenith = zenith_rad(moments[i], 0.0);
        const double under = -std::cos(beam.columns().apparent_zenith_rad(base_m, zenith));
        const double light = beam.transmission(base_m, zenith)[kYellow] * std::max(under, 0.0);
        if (light > most) {
            most = light;
            best = i;
        }
    }
    return best;
}

LightVerdict judge_light(std::span<const Moment> moments, std::size_t clouds_moment,
                         const sky::BeamTable& beam, const sky::CloudField& clouds) {
    LightVerdict verdict;
    verdict.moment = clouds_moment;
    double in_view = 1.0;
    double most = kLeastCanvas;
    std::optional<std::size_t> canvas;
    for (std::size_t k = 0; k < clouds.layers().size(); ++k) {
        const double cover = near_cover(clouds, k);
        const bool low = clouds.layers()[k].kind == sky::CloudClass::kLow;
        if (!low && cover * in_view > most) {
            most = cover * in_view;
            canvas = k;
            verdict.canvas_cover = cover;
        }
        if (!canvas && low && cover > kHiding) {
            verdict.verdict = Verdict::kHidden;
            verdict.canvas = k;
            verdict.canvas_cover = cover;
        }
        in_view *= 1.0 - cover;
    }
    if (canvas) {
        verdict.canvas = *canvas;
        verdict.canvas_base_m = clouds.layers()[*canvas].base_m;
        verdict.moment = best_lit_moment(moments, beam, verdict.canvas_base_m);
        const Moment& moment = moments[verdict.moment];
        const double apparent_rad =
            beam.columns().apparent_zenith_rad(verdict.canvas_base_m, zenith_rad(moment, 0.0));
        verdict.reach_m = 2.0 * sky::SunRay(verdict.canvas_base_m, apparent_rad).tangent_path_m();
        judge_path(moment, beam, clouds, verdict);
    }
    return verdict;
}

}  // namespace gloam::outlook
