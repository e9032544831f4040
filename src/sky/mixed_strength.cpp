#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

#include "sky/colour_strength.hpp"
#include "sky/elementary.hpp"
#include "sky/sky_mixer.hpp"
#include "sky/strength_rule.hpp"
#include "sky/vector_clones.hpp"

// colour_strength() of a mixed sky: the same definition, on whole planes at a time and in single precision.
// What differs: the most colourful part of a frame is found as the least of a bound instead of by sorting.
namespace gloam::sky {
namespace {

constexpr float narrow(double value) {
    return static_cast<float>(value);
}

/// Solid angle of a direction of each row, per column.
const std::array<float, kGridRows> kRowWeights = [] {
    const auto elevations = PanoramaGrid::standard().elevations;
    std::array<float, kGridRows> weights{};
    for (std::size_t r = 0; r < kGridRows; ++r) {
        const double here = elevations[r].radians();
        const double low = r == 0 ? 0.0 : 0.5 * (elevations[r - 1].radians() + here);
        const double high = r + 1 < kGridRows ? 0.5 * (here + elevations[r + 1].radians()) : 2.0 * here - low;
        weights[r] = static_cast<float>(std::sin(std::min(high, std::numbers::pi / 2.0)) - std::sin(low));
    }
    return weights;
}();

/// Which rows count less in the mean of all sky, and which lie in a frame.
using ByRow = std::array<bool, kGridRows>;
template <class Is>
ByRow rows_that(const Is& is) {
    const auto elevations = PanoramaGrid::standard().elevations;
    ByRow rows{};
    std::ranges::transform(elevations, rows.begin(),
                           [&](Angle elevation) { return is(elevation.degrees()); });
    return rows;
}
const ByRow kIsHighUp = rows_that([](double elevation_deg) { return elevation_deg > kHighUp_deg; });
const ByRow kIsInFrame = rows_that([](double elevation_deg) { return elevation_deg < kFrameHeight_deg; });

/// The columns in the order of their azimuth, from the one to the right of the sun's opposite.
constexpr auto kRound = [] {
    std::array<std::size_t, kGridColumns> round{};
    for (std::size_t i = 0; i < kGridColumns; ++i) {
        round[i] = i < kGridColumns - kGridSides ? kGridColumns - 1 - i : i - (kGridColumns - kGridSides);
    }
    return round;
}();

constexpr double kRadian = std::numbers::pi / 180.0;

float total_of(const ByColumn& columns) {
    return std::accumulate(columns.begin(), columns.end(), 0.0F);
}

/// A component in one row, if it can be seen there at all.
bool is_seen(const MixedSky::Component& component, std::size_t row) {
    const auto first = component.share.begin() + static_cast<std::ptrdiff_t>(row * kGridColumns);
    return std::any_of(first, first + kGridColumns, [](float share) { return share > 1e-6F; });
}

GLOAM_VECTOR_CLONES float mean_luminance(const MixedSky& sky) {
    ByColumn sum{};
    ByColumn total{};
    for (std::size_t k = 0; k < sky.count; ++k) {
        for (std::size_t r = 0; r < kGridRows; ++r) {
            if (!is_seen(sky.components[k], r)) {
                continue;
            }
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                const std::size_t d = r * kGridColumns + c;
                const float weight = kRowWeights[r] * sky.components[k].share[d];
                sum[c] += weight * logarithm(std::max(sky.components[k].xyz[1][d], 1e-9F));
                total[c] += weight;
            }
        }
    }
    return exponential(total_of(sum) / total_of(total));
}

GLOAM_INLINE float shoulder(float value) {
    constexpr float kBend = narrow(kKnee);
    constexpr float kLeft = narrow(kRoom);
    const float bent = kBend + kLeft * (1.0F - exponential((kBend - value) / kLeft));
    return value < kBend ? value : bent;
}

/// The curve of CIE L*a*b*.
GLOAM_INLINE float lab_curve(float value) {
    constexpr float kEdge = 216.0F / 24389.0F;
    constexpr float kSlope = 24389.0F / 27.0F;
    const float root = cube_root(std::max(value, 1e-6F));
    const float straight = (kSlope * value + 16.0F) / 116.0F;
    return value > kEdge ? root : straight;
}

/// The matrices of colour.cpp in single precision.
struct Matrices {
    std::array<std::array<float, 3>, 3> to_rgb{};
    std::array<std::array<float, 3>, 3> to_xyz{};
};
const Matrices kMatrices = [] {
    Matrices m;
    for (std::size_t i = 0; i < 3; ++i) {
        const auto unit = [i](std::size_t j) { return i == j ? 1.0 : 0.0; };
        const LinearRgb rgb = linear_rgb({unit(0), unit(1), unit(2)});
        const Xyz xyz = xyz_of({unit(0), unit(1), unit(2)});
        for (std::size_t j = 0; j < 3; ++j) {
            m.to_rgb[j][i] = static_cast<float>(rgb[j]);
        }
        m.to_xyz[0][i] = static_cast<float>(xyz.x);
        m.to_xyz[1][i] = static_cast<float>(xyz.y);
        m.to_xyz[2][i] = static_cast<float>(xyz.z);
    }
    return m;
}();

/// Linear RGB of a row as a camera would show it.
GLOAM_INLINE void show_row(const MixedSky::Component& component, std::size_t first, float per_white,
                           std::array<ByColumn, 3>& rgb) {
    const auto& m = kMatrices.to_rgb;
    float brightest = 0.0F;
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            rgb[i][c] =
                per_white * (m[i][0] * component.xyz[0][first + c] + m[i][1] * component.xyz[1][first + c] +
                             m[i][2] * component.xyz[2][first + c]);
        }
        brightest = std::max(brightest, *std::max_element(rgb[i].begin(), rgb[i].end()));
    }
    if (brightest > narrow(kKnee)) {
        for (ByColumn& channel : rgb) {
            for (float& value : channel) {
                value = shoulder(value);
            }
        }
    }
}

/// Colour of a row of a component for an adapted viewer.
GLOAM_VECTOR_CLONES void colours_of(const MixedSky::Component& component, std::size_t first, float per_white,
                                    float eye, ByColumn& colours) {
    std::array<ByColumn, 3> rgb;
    show_row(component, first, per_white, rgb);
    const auto& m = kMatrices.to_xyz;
    const std::array<float, 3> per_d65{narrow(1.0 / kD65.x), narrow(1.0 / kD65.y), narrow(1.0 / kD65.z)};
    std::array<ByColumn, 3> lab;
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            lab[i][c] =
                lab_curve((m[i][0] * rgb[0][c] + m[i][1] * rgb[1][c] + m[i][2] * rgb[2][c]) * per_d65[i]);
        }
    }
    const auto towards_warm = narrow(std::cos(kWarmest_deg * kRadian));
    const auto across_warm = narrow(std::sin(kWarmest_deg * kRadian));
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        const float lightness = 116.0F * lab[1][c] - 16.0F;
        const float a = 500.0F * (lab[0][c] - lab[1][c]);
        const float b = 200.0F * (lab[1][c] - lab[2][c]);
        const float chroma = std::sqrt(a * a + b * b);
        const float across = towards_warm * b - across_warm * a;
        const float off_rad = angle_of(towards_warm * a + across_warm * b, across < 0.0F ? -across : across);
        const float cool = (off_rad - narrow(kFullHue_deg * kRadian)) *
                           narrow((1.0 - kLeastHue) / ((kLeastHue_deg - kFullHue_deg) * kRadian));
        const float hue = std::min(std::max(1.0F - cool, narrow(kLeastHue)), 1.0F);
        const float lit = std::min(std::max(lightness * narrow(1.0 / kFullLightness), 0.0F), 1.0F);
        colours[c] = std::max(0.0F, chroma - narrow(kLeastChroma)) * hue * lit * eye;
    }
}

/// Colour and weight of a component in a row that it is seen in.
struct ColouredRow {
    std::size_t row;
    ByColumn colours;
    ByColumn weights;
};
using ColouredRows = std::vector<ColouredRow>;

ColouredRows coloured_rows(const MixedSky& sky) {
    const float mean_cd_m2 = mean_luminance(sky);
    const auto eye = narrow(eye_adaptation(static_cast<double>(mean_cd_m2)));
    const float per_white = 1.0F / (narrow(kWhiteOverMean) * mean_cd_m2);
    ColouredRows rows;
    rows.reserve(sky.count * kGridRows);
    for (std::size_t k = 0; k < sky.count; ++k) {
        for (std::size_t r = 0; r < kGridRows; ++r) {
            if (!is_seen(sky.components[k], r)) {
                continue;
            }
            ColouredRow& row = rows.emplace_back();
            row.row = r;
            const std::size_t first = r * kGridColumns;
            colours_of(sky.components[k], first, per_white, eye, row.colours);
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                row.weights[c] = kRowWeights[r] * sky.components[k].share[first + c];
            }
        }
    }
    return rows;
}

/// Mean colour of all sky, high up counting less.
GLOAM_VECTOR_CLONES float pan_of(const ColouredRows& rows) {
    ByColumn sum{};
    ByColumn total{};
    for (const ColouredRow& row : rows) {
        const float high_up = kIsHighUp[row.row] ? narrow(kHighUpWeight) : 1.0F;
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            sum[c] += high_up * row.weights[c] * row.colours[c];
            total[c] += high_up * row.weights[c];
        }
    }
    return total_of(sum) / total_of(total);
}

/// Thresholds over the mean colour of all frames: close where an even sky has all its colour.
constexpr std::array kThresholds{0.0F, 0.35F, 0.65F, 0.85F, 0.95F, 1.05F, 1.2F, 1.45F,
                                 1.8F, 2.3F,  2.9F,  3.7F,  4.8F,  6.5F,  9.0F, 13.0F};
/// Sums over the rows of a frame, by column: of weight, and of weight times what colour exceeds each
/// threshold. The mean of the most colourful share p of a frame is the least, over all thresholds t, of t +
/// mean(excess over t) / p (R. T. Rockafellar, S. Uryasev 2000, J. Risk 2, 21: the mean of a tail as a
/// minimum; from memory), so nothing need be sorted.
struct Excess {
    float mean = 0.0F;  ///< colour of all frames
    ByColumn weight{};
    std::array<ByColumn, kThresholds.size()> over{};
};

GLOAM_VECTOR_CLONES void find_excess(const ColouredRows& rows, Excess& excess) {
    ByColumn sum{};
    for (const ColouredRow& row : rows) {
        if (kIsInFrame[row.row]) {
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                excess.weight[c] += row.weights[c];
                sum[c] += row.weights[c] * row.colours[c];
            }
        }
    }
    excess.mean = total_of(sum) / total_of(excess.weight);
    for (const ColouredRow& row : rows) {
        for (std::size_t t = 0; t < kThresholds.size() && kIsInFrame[row.row]; ++t) {
            const float threshold = kThresholds[t] * excess.mean;
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                excess.over[t][c] += row.weights[c] * std::max(row.colours[c] - threshold, 0.0F);
            }
        }
    }
}

/// Sums over frames by the column of their middle, from the one before the sun's opposite round by the left:
/// a frame is 84 deg wide, five columns in full and the three tenths of the next on either side that lie in
/// it.
GLOAM_INLINE ByColumn framed(const ByColumn& columns) {
    constexpr std::size_t kFull = 2;
    constexpr double kColumn_deg = 15.0;
    constexpr auto kEdge =
        static_cast<float>((kFrameWidth_deg / 2.0 - 3.0 * kColumn_deg) / kColumn_deg + 0.5);
    constexpr std::size_t kReach = kFull + 1;
    std::array<float, kGridColumns + 2 * kReach> ring;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        ring[i] = columns[kRound[(i + kGridColumns - kReach) % kGridColumns]];
    }
    ByColumn sums;
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        sums[c] = kEdge * (ring[c] + ring[c + 2 * kReach]);
        for (std::size_t off = 1; off < 2 * kReach; ++off) {
            sums[c] += ring[c + off];
        }
    }
    return sums;
}

/// Of every frame half its mean and three tenths of the mean of its most colourful part, by its middle.
GLOAM_VECTOR_CLONES void frame_values(const Excess& excess, ByColumn& values) {
    const ByColumn weight = framed(excess.weight);
    std::array<ByColumn, kThresholds.size()> tail;
    for (std::size_t t = 0; t < kThresholds.size(); ++t) {
        tail[t] = framed(excess.over[t]);
    }
    std::array<ByColumn, kThresholds.size()> bound;
    for (std::size_t t = 0; t < kThresholds.size(); ++t) {
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            bound[t][c] = kThresholds[t] * excess.mean + tail[t][c] / (narrow(kVividShare) * weight[c]);
        }
    }
    // The least lies between thresholds: at the vertex of the parabola through the lowest and its neighbours.
    ByColumn vivid = bound[0];
    for (std::size_t t = 1; t + 1 < kThresholds.size(); ++t) {
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            const float before = bound[t - 1][c] - bound[t][c];
            const float after = bound[t + 1][c] - bound[t][c];
            const float apart = before - after;
            const float below = apart * apart / (8.0F * (before + after) + 1e-12F);
            const bool lowest = before >= 0.0F && after >= 0.0F;
            vivid[c] = std::min(vivid[c], lowest ? bound[t][c] - below : bound[t][c]);
        }
    }
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        values[c] = narrow(kMeanWeight) * tail[0][c] / weight[c] + narrow(kVividWeight) * vivid[c];
    }
}

}  // namespace

ColourStrength colour_strength(const MixedSky& sky) {
    const ColouredRows rows = coloured_rows(sky);
    const float pan = pan_of(rows);
    Excess excess;
    find_excess(rows, excess);
    ByColumn frames;
    frame_values(excess, frames);
    ColourStrength result;
    for (std::size_t i = 0; i < kGridColumns; ++i) {
        const float strength = narrow(kFrameShare) * frames[i] + narrow(1.0 - kFrameShare) * pan;
        const double value = 100.0 * (1.0 - static_cast<double>(exponential(-strength / narrow(kScale))));
        const double middle_deg = azimuth_deg(kRound[i]);
        if (value > result.value) {
            result.value = value;
            result.best_azimuth = Angle::degrees(middle_deg);
        }
        double& side = std::abs(middle_deg) <= 90.0 ? result.facing : result.opposite;
        side = std::max(side, value);
    }
    return result;
}

}  // namespace gloam::sky
