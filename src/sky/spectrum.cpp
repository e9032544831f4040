#include "sky/spectrum.hpp"

#include <algorithm>
#include <vector>

#include "base/text_table.hpp"

namespace gloam::sky {
namespace {

/// Luminous efficacy at 540 THz, lm W-1 (SI).
constexpr double kLuminousEfficacy_lm_w = 683.0;

/// A tabulated function of wavelength, read linearly between its rows.
struct Curve {
    std::vector<double> wavelength_nm;
    std::vector<double> value;

    double at(double nm) const {
        const auto above = std::lower_bound(wavelength_nm.begin(), wavelength_nm.end(), nm);
        if (above == wavelength_nm.begin()) {
            return value.front();
        }
        if (above == wavelength_nm.end()) {
            return value.back();
        }
        const auto i = static_cast<std::size_t>(above - wavelength_nm.begin());
        const double share = (nm - wavelength_nm[i - 1]) / (wavelength_nm[i] - wavelength_nm[i - 1]);
        return value[i - 1] + share * (value[i] - value[i - 1]);
    }
};

Result<Curve> read_curve(const TextTable& table, std::string_view wavelength_name,
                         std::string_view value_name, double shift_nm = 0.0) {
    auto wavelength = table.numbers(wavelength_name);
    auto value = table.numbers(value_name);
    if (!wavelength) {
        return tl::unexpected(wavelength.error());
    }
    if (!value) {
        return tl::unexpected(value.error());
    }
    for (double& nm : *wavelength) {
        nm += shift_nm;
    }
    return Curve{std::move(*wavelength), std::move(*value)};
}

/// Mean over the band that starts at `from_nm`, weighted with `weight`, on a 0.5 nm grid of midpoints.
template <class Weight, class Function>
double band_mean(double from_nm, const Weight& weight, const Function& function) {
    constexpr int kSamples = 40;
    double sum = 0.0;
    double total = 0.0;
    for (int i = 0; i < kSamples; ++i) {
        const double nm = from_nm + (i + 0.5) * kBandWidth_nm / kSamples;
        sum += weight(nm) * function(nm);
        total += weight(nm);
    }
    return sum / total;
}

}  // namespace

Xyz Bands::xyz(const Spectrum& density) const {
    Xyz sum;
    for (std::size_t b = 0; b < kBands; ++b) {
        const double power = kLuminousEfficacy_lm_w * kBandWidth_nm * density[b];
        sum = sum + Xyz{xbar[b], ybar[b], zbar[b]} * power;
    }
    return sum;
}

Result<Bands> make_bands(std::string_view solar_csv, std::string_view observer_csv,
                         std::string_view ozone_csv) {
    const auto solar = parse_text_table(solar_csv, ',', "solar spectrum");
    const auto observer = parse_text_table(observer_csv, ',', "standard observer");
    const auto ozone = parse_text_table(ozone_csv, ',', "ozone cross-section");
    for (const auto* table : {&solar, &observer, &ozone}) {
        if (!*table) {
            return tl::unexpected(table->error());
        }
    }
    constexpr double kHalfOzoneBin_nm = 5.0;  // the table names a bin by its lower edge
    const auto sun = read_curve(*solar, "wl_nm", "etr_W_m2_nm");
    const auto xbar = read_curve(*observer, "wl_nm", "xbar_1931");
    const auto ybar = read_curve(*observer, "wl_nm", "ybar_1931");
    const auto zbar = read_curve(*observer, "wl_nm", "zbar_1931");
    const auto section_cm2 = read_curve(*ozone, "wl_lo_nm", "sigma_233K_cm2", kHalfOzoneBin_nm);
    for (const auto* curve : {&sun, &xbar, &ybar, &zbar, &section_cm2}) {
        if (!*curve) {
            return tl::unexpected(curve->error());
        }
    }
    constexpr double kSquareCentimetre_m2 = 1e-4;
    const auto flat = [](double) { return 1.0; };
    const auto sunlight = [&](double nm) { return sun->at(nm); };
    Bands bands;
    for (std::size_t b = 0; b < kBands; ++b) {
        const double from_nm = kFirstEdge_nm + static_cast<double>(b) * kBandWidth_nm;
        const auto mean = [&](const Curve& curve) {
            return band_mean(from_nm, sunlight, [&](double nm) { return curve.at(nm); });
        };
        bands.centre_nm[b] = from_nm + kBandWidth_nm / 2.0;
        bands.sun_w_m2_nm[b] = band_mean(from_nm, flat, sunlight);
        bands.xbar[b] = mean(*xbar);
        bands.ybar[b] = mean(*ybar);
        bands.zbar[b] = mean(*zbar);
        bands.ozone_m2[b] = kSquareCentimetre_m2 * mean(*section_cm2);
        bands.rayleigh_depth[b] = band_mean(from_nm, sunlight, rayleigh_optical_depth);
    }
    return bands;
}

double rayleigh_optical_depth(double wavelength_nm) {
    const double square_um2 = wavelength_nm * wavelength_nm * 1e-6;
    return 0.0021520 * (1.0455996 - 341.29061 / square_um2 - 0.90230850 * square_um2) /
           (1.0 + 0.0027059889 / square_um2 - 85.968563 * square_um2);
}

}  // namespace gloam::sky
