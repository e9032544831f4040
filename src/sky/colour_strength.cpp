#include "sky/colour_strength.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "sky/strength_rule.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;

/// Warm hues count in full: 1 within 40 deg of hue 25 deg (crimson to orange), falling to a tenth at 85 deg.
double hue_weight(double a, double b) {
    const double hue_deg = std::atan2(b, a) * 180.0 / kPi;
    const double off_deg = std::abs(std::remainder(hue_deg - kWarmest_deg, 360.0));
    const double share = (off_deg - kFullHue_deg) / (kLeastHue_deg - kFullHue_deg);
    return std::clamp(1.0 - (1.0 - kLeastHue) * share, kLeastHue, 1.0);
}

/// Glare bleaches, as on a photograph: linear to 0.8, then bent towards 1.2.
double shoulder(double value) {
    return value < kKnee ? value : kKnee + kRoom * (1.0 - std::exp(-(value - kKnee) / kRoom));
}

/// Colour of one component for a viewer adapted to `mean_cd_m2`.
double colour_of(const Xyz& light, double mean_cd_m2, double eye) {
    LinearRgb rgb = linear_rgb(light * (1.0 / (kWhiteOverMean * mean_cd_m2)));
    for (double& channel : rgb) {
        channel = shoulder(channel);
    }
    const Lab lab = lab_of(xyz_of(rgb));
    const double chroma = std::hypot(lab.a, lab.b);
    return std::max(0.0, chroma - kLeastChroma) * hue_weight(lab.a, lab.b) *
           std::clamp(lab.lightness / kFullLightness, 0.0, 1.0) * eye;
}

/// Solid angle of each elevation row, per radian of azimuth; rows meet half-way, the last reaches as far
/// above as below.
std::vector<double> row_weights(const PanoramaGrid& grid) {
    const std::size_t n = grid.elevations.size();
    std::vector<double> weights;
    for (std::size_t i = 0; i < n; ++i) {
        const double here = grid.elevations[i].radians();
        const double low = i == 0 ? 0.0 : 0.5 * (grid.elevations[i - 1].radians() + here);
        const double high = i + 1 < n ? 0.5 * (here + grid.elevations[i + 1].radians()) : 2.0 * here - low;
        weights.push_back(std::sin(std::min(high, kPi / 2.0)) - std::sin(low));
    }
    return weights;
}

double mean_luminance(const Panorama& panorama, const std::vector<double>& weights) {
    double sum = 0.0;
    double total = 0.0;
    for (std::size_t r = 0; r < weights.size(); ++r) {
        for (std::size_t a = 0; a < panorama.grid.azimuths.size(); ++a) {
            const PanoramaCell& cell = panorama.cell(r, a);
            for (std::size_t i = 0; i < cell.count; ++i) {
                const double weight = weights[r] * cell.patches[i].share;
                sum += weight * std::log(std::max(cell.patches[i].light.y, 1e-9));
                total += weight;
            }
        }
    }
    return std::exp(sum / total);
}

struct Sample {
    double colour;
    double weight;
};

/// Half the mean colour of a frame and three tenths of that of its most colourful part: small vivid patches
/// count beside even colour.
double frame_value(std::vector<Sample>& samples) {
    double sum = 0.0;
    double total = 0.0;
    for (const Sample& sample : samples) {
        sum += sample.colour * sample.weight;
        total += sample.weight;
    }
    std::stable_sort(samples.begin(), samples.end(),
                     [](const Sample& a, const Sample& b) { return a.colour > b.colour; });
    double vivid = 0.0;
    double left = kVividShare * total;
    for (const Sample& sample : samples) {
        const double taken = std::min(sample.weight, left);
        vivid += taken * sample.colour;
        left -= taken;
    }
    return kMeanWeight * sum / total + kVividWeight * vivid / (kVividShare * total);
}

}  // namespace

ColourStrength colour_strength(const Panorama& panorama) {
    const PanoramaGrid& grid = panorama.grid;
    const std::vector<double> weights = row_weights(grid);
    const double mean_cd_m2 = mean_luminance(panorama, weights);
    const double eye = eye_adaptation(mean_cd_m2);
    std::vector<std::vector<Sample>> samples(panorama.cells.size());
    double pan = 0.0;
    double pan_total = 0.0;
    for (std::size_t i = 0; i < panorama.cells.size(); ++i) {
        const std::size_t row = i / grid.azimuths.size();
        const double high_up = grid.elevations[row].degrees() > kHighUp_deg ? kHighUpWeight : 1.0;
        const PanoramaCell& cell = panorama.cells[i];
        for (std::size_t k = 0; k < cell.count; ++k) {
            const Sample sample{colour_of(cell.patches[k].light, mean_cd_m2, eye),
                                weights[row] * cell.patches[k].share};
            samples[i].push_back(sample);
            pan += high_up * sample.weight * sample.colour;
            pan_total += high_up * sample.weight;
        }
    }
    pan /= pan_total;
    const double column_deg = 360.0 / static_cast<double>(grid.azimuths.size());
    const auto strength = [&](double frame) {
        return 100.0 * (1.0 - std::exp(-(kFrameShare * frame + (1.0 - kFrameShare) * pan) / kScale));
    };
    ColourStrength result;
    for (const Angle middle : grid.azimuths) {
        std::vector<Sample> inside;
        for (std::size_t a = 0; a < grid.azimuths.size(); ++a) {
            const double off_deg =
                std::abs(std::remainder(grid.azimuths[a].degrees() - middle.degrees(), 360.0));
            const double share = std::clamp((kFrameWidth_deg / 2.0 - off_deg) / column_deg + 0.5, 0.0, 1.0);
            for (std::size_t r = 0; share > 0.0 && r < grid.elevations.size(); ++r) {
                if (grid.elevations[r].degrees() < kFrameHeight_deg) {
                    for (const Sample& sample : samples[r * grid.azimuths.size() + a]) {
                        inside.push_back({sample.colour, sample.weight * share});
                    }
                }
            }
        }
        const double value = strength(frame_value(inside));
        if (value > result.value) {
            result.value = value;
            result.best_azimuth = middle;
        }
        double& side = std::abs(middle.degrees()) <= 90.0 ? result.facing : result.opposite;
        side = std::max(side, value);
    }
    return result;
}

}  // namespace gloam::sky
