// The harmonics against a year of sea levels measured at Honolulu, and against UTide's analysis of them.
#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <map>
#include <numeric>

#include "reference/tide/tide_file.hpp"

namespace gloam::tide {
namespace {

struct Level {
    Instant instant;
    double height_m = 0.0;
};

/// Hourly levels; the file counts days from 1700-01-01, UTC.
std::vector<Level> measured() {
    constexpr std::chrono::sys_days kFirstDay = std::chrono::January / 1 / 1700;
    std::ifstream file = test::open_tide_file("honolulu_2010_hourly.asc");
    std::vector<Level> levels;
    double days = 0.0;
    double height_mm = 0.0;
    while (file >> days >> height_mm) {
        const auto hour = std::chrono::hours(std::llround(days * 24.0));
        levels.push_back({Instant(kFirstDay) + hour, height_mm / 1000.0});
    }
    return levels;
}

/// Root mean square of what is left of the measured levels, about its mean.
double rms_left_m(const HarmonicPort& port) {
    std::vector<double> left_m;
    for (const Level& level : measured()) {
        left_m.push_back(level.height_m - predicted_height(port, level.instant).metres);
    }
    const auto count = static_cast<double>(left_m.size());
    const double mean_m = std::accumulate(left_m.begin(), left_m.end(), 0.0) / count;
    double squares = 0.0;
    for (const double one_m : left_m) {
        squares += (one_m - mean_m) * (one_m - mean_m);
    }
    return std::sqrt(squares / count);
}

/// Our name of a wave of UTide; empty: not among ours. Its NO1 is the larger of the two lines that
/// Schureman's M1 holds together: not the same amplitude.
std::string name_here(const std::string& name) {
    static const std::map<std::string, std::string> kOther = {{"RHO1", "RHO"}, {"LDA2", "LAM2"}};
    const auto other = kOther.find(name);
    const std::string here = other == kOther.end() ? name : other->second;
    return wave_named(here) ? here : "";
}

HarmonicPort analysed() {
    const TextTable table = test::read_tide_table("honolulu_2010_utide.csv");
    const auto amplitudes_mm = table.numbers("amplitude_mm").value();
    const auto lags_deg = table.numbers("greenwich_phase_lag_deg").value();
    HarmonicPort port{"honolulu", "MSL", CivilDate{}, 0.0, {}};
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        if (const std::string name = name_here(table.rows[i][0]); !name.empty()) {
            port.constituents.push_back(
                {wave_named(name).value(), amplitudes_mm[i] / 1000.0, Angle::degrees(lags_deg[i])});
        }
    }
    return port;
}

TEST(HonoluluIn2010, IsPredictedFromPublishedConstantsWithinEightCentimetres) {
    ASSERT_EQ(measured().size(), 8760U);
    const double rms_m = rms_left_m(test::read_harmonic_port("honolulu"));
    fmt::print("published constants: rms {:.4f} m\n", rms_m);
    EXPECT_LE(rms_m, 0.08);
}

TEST(HonoluluIn2010, IsPredictedFromUtidesCoefficientsWithinEightCentimetres) {
    const double rms_m = rms_left_m(analysed());
    fmt::print("UTide's coefficients: rms {:.4f} m\n", rms_m);
    EXPECT_LE(rms_m, 0.08);
}

/// What is left of the measured levels, about UTide's mean.
std::vector<double> left_by_m(const HarmonicPort& port, const std::vector<Level>& levels) {
    constexpr double kMean_m = 1.417343;
    std::vector<double> left_m;
    for (const Level& level : levels) {
        left_m.push_back(level.height_m - kMean_m - predicted_height(port, level.instant).metres);
    }
    return left_m;
}

/// How much of a wave, metres, is left.
double amplitude_left_m(const Wave& wave, const std::vector<double>& left_m,
                        const std::vector<Level>& levels) {
    std::complex<double> sum;
    double squares = 0.0;
    for (std::size_t i = 0; i < levels.size(); ++i) {
        const Longitudes longitudes = longitudes_at(levels[i].instant);
        const NodalCorrection nodal = nodal_correction(wave, longitudes);
        const Angle argument = equilibrium_argument(wave, longitudes) + nodal.phase;
        sum += left_m[i] * std::polar(nodal.factor, argument.radians());
        squares += nodal.factor * nodal.factor;
    }
    return 2.0 * std::abs(sum) / squares;
}

// The sum is the most by which heights can differ. Waves of a fortnight and longer are not in it: UTide fits
// a trend beside them.
TEST(HonoluluIn2010, HoldsOfEachWaveWhatUtideFoundWithinTwoCentimetresInAll) {
    const HarmonicPort port = analysed();
    const std::vector<Level> levels = measured();
    const std::vector<double> left_m = left_by_m(port, levels);
    double sum_m = 0.0;
    for (const Constituent& constituent : port.constituents) {
        if (constituent.wave.multiples[0] > 0) {
            sum_m += amplitude_left_m(constituent.wave, left_m, levels);
        }
    }
    fmt::print("UTide's waves of a day and shorter: {:.4f} m left in all\n", sum_m);
    EXPECT_LT(sum_m, 0.02);
}

TEST(HonoluluIn2010, HoldsMostOfThePublishedM1) {
    const std::vector<Level> levels = measured();
    const Wave m1 = wave_named("M1").value();
    HarmonicPort port = test::read_harmonic_port("honolulu");
    const double with_it_m = amplitude_left_m(m1, left_by_m(port, levels), levels);
    std::erase_if(port.constituents,
                  [](const Constituent& constituent) { return constituent.wave.name == "M1"; });
    const double without_it_m = amplitude_left_m(m1, left_by_m(port, levels), levels);
    fmt::print("M1: {:.4f} m left of {:.4f} m\n", with_it_m, without_it_m);
    EXPECT_LT(with_it_m, without_it_m / 2.0);
}

TEST(Waves, TurnAtTheFrequenciesOfUtide) {
    const Longitudes begin = longitudes_at(parse_rfc3339("2010-07-01T12:00:00Z").value());
    const Longitudes end = longitudes_at(parse_rfc3339("2010-07-02T12:00:00Z").value());
    const TextTable table = test::read_tide_table("honolulu_2010_utide.csv");
    const auto frequencies_per_h = table.numbers("frequency_cycles_per_hour").value();
    int waves = 0;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const std::string name = name_here(table.rows[i][0]);
        if (name.empty()) {
            continue;
        }
        const Wave wave = wave_named(name).value();
        const double turns =
            (equilibrium_argument(wave, end) - equilibrium_argument(wave, begin)).degrees() / 360.0;
        const double expected = frequencies_per_h[i] * 24.0;
        EXPECT_NEAR(std::remainder(turns - expected, 1.0), 0.0, 1e-7) << name;
        ++waves;
    }
    EXPECT_EQ(waves, 29);
}

}  // namespace
}  // namespace gloam::tide
