#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "sky/colour_strength.hpp"
#include "sky/elementary.hpp"
#include "sky/sky_mixer.hpp"
#include "sky/strength_rule.hpp"
#include "sky/vector_clones.hpp"

// colour_strength() of a mixed sky: the same definition, on whole planes at a time and in single precision.
// What differs: the most colourful part of a frame is found from a histogram of colour instead of by sorting.
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

constexpr double kRadian = std::numbers::pi / 180.0;

GLOAM_VECTOR_CLONES float mean_luminance(const MixedSky& sky) {
    float sum = 0.0F;
    float total = 0.0F;
    for (std::size_t k = 0; k < sky.count; ++k) {
        for (std::size_t r = 0; r < kGridRows; ++r) {
            float row_sum = 0.0F;
            float row_total = 0.0F;
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                const std::size_t d = r * kGridColumns + c;
                const float share = sky.components[k].share[d];
                row_sum += share * logarithm(std::max(sky.components[k].xyz[1][d], 1e-9F));
                row_total += share;
            }
            sum += kRowWeights[r] * row_sum;
            total += kRowWeights[r] * row_total;
        }
    }
    return exponential(sum / total);
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

/// Colour of every direction of a component for an adapted viewer.
GLOAM_VECTOR_CLONES void colours_of(const MixedSky::Component& component, float white, float eye,
                                    MixedSky::Plane& colours) {
    const Matrices m = kMatrices;
    const float per_white = 1.0F / white;
    const std::array<float, 3> per_d65{narrow(1.0 / kD65.x), narrow(1.0 / kD65.y), narrow(1.0 / kD65.z)};
    const auto towards_warm = narrow(std::cos(kWarmest_deg * kRadian));
    const auto across_warm = narrow(std::sin(kWarmest_deg * kRadian));
    for (std::size_t d = 0; d < MixedSky::kDirections; ++d) {
        const float x = component.xyz[0][d] * per_white;
        const float y = component.xyz[1][d] * per_white;
        const float z = component.xyz[2][d] * per_white;
        const float red = shoulder(m.to_rgb[0][0] * x + m.to_rgb[0][1] * y + m.to_rgb[0][2] * z);
        const float green = shoulder(m.to_rgb[1][0] * x + m.to_rgb[1][1] * y + m.to_rgb[1][2] * z);
        const float blue = shoulder(m.to_rgb[2][0] * x + m.to_rgb[2][1] * y + m.to_rgb[2][2] * z);
        const float fx =
            lab_curve((m.to_xyz[0][0] * red + m.to_xyz[0][1] * green + m.to_xyz[0][2] * blue) * per_d65[0]);
        const float fy =
            lab_curve((m.to_xyz[1][0] * red + m.to_xyz[1][1] * green + m.to_xyz[1][2] * blue) * per_d65[1]);
        const float fz =
            lab_curve((m.to_xyz[2][0] * red + m.to_xyz[2][1] * green + m.to_xyz[2][2] * blue) * per_d65[2]);
        const float lightness = 116.0F * fy - 16.0F;
        const float a = 500.0F * (fx - fy);
        const float b = 200.0F * (fy - fz);
        const float chroma = std::sqrt(a * a + b * b);
        const float across = towards_warm * b - across_warm * a;
        const float off_rad = angle_of(towards_warm * a + across_warm * b, across < 0.0F ? -across : across);
        const float cool = (off_rad - narrow(kFullHue_deg * kRadian)) *
                           narrow((1.0 - kLeastHue) / ((kLeastHue_deg - kFullHue_deg) * kRadian));
        const float hue = std::min(std::max(1.0F - cool, narrow(kLeastHue)), 1.0F);
        const float lit = std::min(std::max(lightness * narrow(1.0 / kFullLightness), 0.0F), 1.0F);
        colours[d] = std::max(0.0F, chroma - narrow(kLeastChroma)) * hue * lit * eye;
    }
}

/// Weights by colour. Bin b begins at b^2 / 32: faint colours are parted more finely, as most skies are
/// faint.
constexpr std::size_t kBins = 64;
constexpr float kBinsPerUnit = 32.0F;
struct Histogram {
    std::array<float, kBins> weight{};
    std::array<float, kBins> sum{};  ///< of weight times colour
};

/// Half the mean and three tenths of the mean of the most colourful part.
GLOAM_VECTOR_CLONES float frame_value(const Histogram& histogram) {
    float total = 0.0F;
    float sum = 0.0F;
    for (std::size_t i = 0; i < kBins; ++i) {
        total += histogram.weight[i];
        sum += histogram.sum[i];
    }
    const float most = narrow(kVividShare) * total;
    float left = most;
    float vivid = 0.0F;
    for (std::size_t i = kBins; i-- > 0 && left > 0.0F;) {
        const float weight = histogram.weight[i];
        if (weight > 0.0F) {
            vivid += weight <= left ? histogram.sum[i] : left * histogram.sum[i] / weight;
            left -= weight;
        }
    }
    return narrow(kMeanWeight) * sum / total + narrow(kVividWeight) * vivid / most;
}

/// The column so many columns to the right of the sun.
std::size_t column_at(int turn) {
    constexpr int kAll = static_cast<int>(kGridColumns);
    const int right = (turn + kAll) % kAll;
    return static_cast<std::size_t>(right <= 12 ? right : 12 + kAll - right);
}

}  // namespace

ColourStrength colour_strength(const MixedSky& sky) {
    const float mean_cd_m2 = mean_luminance(sky);
    const auto eye = narrow(eye_adaptation(static_cast<double>(mean_cd_m2)));
    std::array<Histogram, kGridColumns> columns{};
    float pan = 0.0F;
    float pan_total = 0.0F;
    const auto elevations = PanoramaGrid::standard().elevations;
    for (std::size_t k = 0; k < sky.count; ++k) {
        MixedSky::Plane colours;
        colours_of(sky.components[k], narrow(kWhiteOverMean) * mean_cd_m2, eye, colours);
        for (std::size_t r = 0; r < kGridRows; ++r) {
            const float high_up = elevations[r].degrees() > kHighUp_deg ? narrow(kHighUpWeight) : 1.0F;
            const bool in_frame = elevations[r].degrees() < kFrameHeight_deg;
            for (std::size_t c = 0; c < kGridColumns; ++c) {
                const std::size_t d = r * kGridColumns + c;
                const float weight = kRowWeights[r] * sky.components[k].share[d];
                const float coloured = weight * colours[d];
                pan += high_up * coloured;
                pan_total += high_up * weight;
                if (in_frame) {
                    const auto bin =
                        std::min(static_cast<std::size_t>(std::sqrt(colours[d] * kBinsPerUnit)), kBins - 1);
                    columns[c].weight[bin] += weight;
                    columns[c].sum[bin] += coloured;
                }
            }
        }
    }
    pan /= pan_total;
    // A frame is 84 deg wide: five columns in full, and the three tenths of the next that lie in it.
    constexpr int kFull = 2;
    constexpr double kColumn_deg = 15.0;
    constexpr auto kEdge =
        static_cast<float>((kFrameWidth_deg / 2.0 - 3.0 * kColumn_deg) / kColumn_deg + 0.5);
    ColourStrength result;
    for (int middle = -11; middle <= 12; ++middle) {
        Histogram frame;
        for (int off = -kFull - 1; off <= kFull + 1; ++off) {
            const std::size_t c = column_at(middle + off);
            const float share = std::abs(off) <= kFull ? 1.0F : kEdge;
            for (std::size_t i = 0; i < kBins; ++i) {
                frame.weight[i] += share * columns[c].weight[i];
                frame.sum[i] += share * columns[c].sum[i];
            }
        }
        const float strength = narrow(kFrameShare) * frame_value(frame) + narrow(1.0 - kFrameShare) * pan;
        const double value = 100.0 * (1.0 - static_cast<double>(exponential(-strength / narrow(kScale))));
        const Angle azimuth = Angle::degrees(kColumn_deg * middle);
        if (value > result.value) {
            result.value = value;
            result.best_azimuth = azimuth;
        }
        double& side = std::abs(middle) <= 6 ? result.facing : result.opposite;
        side = std::max(side, value);
    }
    return result;
}

}  // namespace gloam::sky
