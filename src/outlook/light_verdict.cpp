#include "outlook/light_verdict.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"

namespace gloam::outlook {
namespace {

constexpr double kLeastCanvas = 0.10;   // visible cover below which a layer is no canvas
constexpr double kHidingShare = 0.90;   // share of the low sky from which a deck counts as hiding the rest
constexpr double kLowSky_deg = 10.0;    // where most of the colour stands
constexpr double kOverhead_m = 30.0e3;  // a low deck is seen so far off, down to 2 deg of elevation
constexpr double kCanvas_m = 100.0e3;   // the same for middle and high cloud, down to 3 to 5 deg
constexpr double kOpenEnough = 0.35;    // mean free share from which the path counts as open
constexpr double kOutside_m = 10.0;
constexpr std::array kAlong_m{0.0, 50.0e3, 100.0e3};

/// Mean cover of a layer round the viewer.
double cover_within(double reach_m, const sky::CloudField& clouds, std::size_t layer) {
    constexpr std::array kSteps{-1.0, -0.75, -0.5, -0.25, 0.0, 0.25, 0.5, 0.75, 1.0};
    double sum = 0.0;
    int count = 0;
    for (const double along : kSteps) {
        for (const double aside : kSteps) {
            if (std::hypot(along, aside) <= 1.0) {
                sum += clouds.cover(layer, along * reach_m, aside * reach_m);
                ++count;
            }
        }
    }
    return sum / count;
}

bool overhead(const sky::CloudLayer& layer, HeightMsl viewer) {
    return layer.top_m > viewer.metres + kOutside_m;
}

/// Low cloud that hides what is above it: overhead it may leave gaps, but seen aslant they close, as in the
/// panorama.
std::optional<std::size_t> hiding_layer(const sky::CloudField& clouds, HeightMsl viewer) {
    for (std::size_t k = 0; k < clouds.layers().size(); ++k) {
        const sky::CloudLayer& layer = clouds.layers()[k];
        if (layer.kind != sky::CloudClass::kLow || !overhead(layer, viewer)) {
            continue;
        }
        const double slant = (layer.top_m - layer.base_m) / layer.optics.view_cell_m /
                             std::tan(Angle::degrees(kLowSky_deg).radians());
        const double gaps = std::pow(1.0 - cover_within(kOverhead_m, clouds, k), std::max(1.0, slant));
        if (1.0 - gaps >= kHidingShare) {
            return k;
        }
    }
    return std::nullopt;
}

/// The middle or high layer of which most is in view.
std::optional<std::size_t> canvas_in(const sky::CloudField& clouds, HeightMsl viewer) {
    std::optional<std::size_t> canvas;
    double most = kLeastCanvas;
    double in_view = 1.0;
    for (std::size_t k = 0; k < clouds.layers().size(); ++k) {
        const sky::CloudLayer& layer = clouds.layers()[k];
        if (!overhead(layer, viewer)) {
            continue;
        }
        const double cover = cover_within(kCanvas_m, clouds, k);
        if (layer.kind != sky::CloudClass::kLow && cover * in_view > most) {
            most = cover * in_view;
            canvas = k;
        }
        in_view *= 1.0 - cover;
    }
    return canvas;
}

double zenith_rad(const Moment& moment, double along_m) {
    return std::numbers::pi / 2.0 - moment.sun.elevation.radians() - along_m / air::kEarthRadius_m;
}

/// Index of the middle band of the beam, near the eye's peak (570 nm).
constexpr std::size_t kYellow = 9;

/// Light that would fall on the base of a cloud overhead on a clear path, per horizontal area; any unit.
double light_from_below(const Moment& moment, const sky::BeamTable& beam, double base_m) {
    const double zenith = zenith_rad(moment, 0.0);
    const double under = -std::cos(beam.columns().apparent_zenith_rad(base_m, zenith));
    return beam.transmission(base_m, zenith)[kYellow] * std::max(under, 0.0);
}

/// What the rays to the canvas overhead and up to 100 km up-sun meet at one moment.
struct Path {
    double open_share = 0.0;
    sky::CloudPassage worst;
};

Path path_at(const Moment& moment, const sky::BeamTable& beam, const sky::CloudField& clouds, double base_m) {
    const double from_m = base_m - kOutside_m;
    Path path;
    for (const double along_m : kAlong_m) {
        const double apparent_rad = beam.columns().apparent_zenith_rad(from_m, zenith_rad(moment, along_m));
        double ln_free = 0.0;
        for (const auto& passage : clouds.passages({along_m, 0.0, from_m}, apparent_rad)) {
            ln_free += passage.ln_free;
            if (passage.ln_free < path.worst.ln_free) {
                path.worst = passage;
            }
        }
        path.open_share += std::exp(ln_free) / static_cast<double>(kAlong_m.size());
    }
    return path;
}

/// The moment from -6 to -0.5 deg with the greatest value; the first moment if none has any.
template <class Value>
std::size_t best_moment(std::span<const Moment> moments, const Value& value) {
    std::size_t best = 0;
    double most = 0.0;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const double here = is_after(moments[i].sun.elevation) ? value(moments[i]) : 0.0;
        if (here > most) {
            most = here;
            best = i;
        }
    }
    return best;
}

/// Judges the canvas by the moment at which most light gets through. If that is too little of what is on its
/// way, the path is shut, and what stands in it is told for the moment at which most light would come.
void judge_path(std::span<const Moment> moments, const sky::BeamTable& beam, const sky::CloudField& clouds,
                LightVerdict& verdict) {
    const double base_m = verdict.canvas_base_m;
    verdict.moment = best_moment(moments, [&](const Moment& moment) {
        return light_from_below(moment, beam, base_m) * path_at(moment, beam, clouds, base_m).open_share;
    });
    Path path = path_at(moments[verdict.moment], beam, clouds, base_m);
    verdict.verdict = path.open_share >= kOpenEnough ? Verdict::kOpen : Verdict::kShut;
    if (verdict.verdict == Verdict::kShut) {
        verdict.moment = best_lit_moment(moments, beam, base_m);
        path = path_at(moments[verdict.moment], beam, clouds, base_m);
        verdict.blocker = path.worst.layer;
        verdict.blocked_from_m = path.worst.from_m;
        verdict.blocked_to_m = path.worst.to_m;
    }
    verdict.open_share = path.open_share;
    const double apparent_rad =
        beam.columns().apparent_zenith_rad(base_m, zenith_rad(moments[verdict.moment], 0.0));
    verdict.reach_m = 2.0 * sky::SunRay(base_m, apparent_rad).tangent_path_m();
}

}  // namespace

std::size_t best_lit_moment(std::span<const Moment> moments, const sky::BeamTable& beam, double base_m) {
    return best_moment(moments, [&](const Moment& moment) { return light_from_below(moment, beam, base_m); });
}

LightVerdict judge_light(std::span<const Moment> moments, std::size_t clouds_moment,
                         const sky::BeamTable& beam, const sky::CloudField& clouds, HeightMsl viewer) {
    LightVerdict verdict;
    verdict.moment = clouds_moment;
    if (const auto deck = hiding_layer(clouds, viewer)) {
        verdict.verdict = Verdict::kHidden;
        verdict.canvas = *deck;
        verdict.canvas_cover = cover_within(kOverhead_m, clouds, *deck);
    } else if (const auto canvas = canvas_in(clouds, viewer)) {
        verdict.canvas = *canvas;
        verdict.canvas_cover = cover_within(kCanvas_m, clouds, *canvas);
        verdict.canvas_base_m = clouds.layers()[*canvas].base_m;
        judge_path(moments, beam, clouds, verdict);
    }
    return verdict;
}

}  // namespace gloam::outlook
