#include "reference/montecarlo/mie.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::montecarlo {
namespace {

using Complex = std::complex<double>;

/// Coefficients a_n and b_n, n from 1.
struct Coefficients {
    std::vector<Complex> a, b;
};

/// D_n(m x), downward from far above the last order.
std::vector<Complex> logarithmic_derivatives(Complex mx, std::size_t orders) {
    const std::size_t start = std::max(orders, static_cast<std::size_t>(std::abs(mx))) + 60;
    std::vector<Complex> d(start + 1, Complex{});
    for (std::size_t n = start; n >= 1; --n) {
        const Complex ratio = static_cast<double>(n) / mx;
        d[n - 1] = ratio - 1.0 / (d[n] + ratio);
    }
    return d;
}

Coefficients coefficients(double x, Complex m) {
    const auto orders = static_cast<std::size_t>(x + 4.05 * std::cbrt(x) + 2.0);
    const std::vector<Complex> d = logarithmic_derivatives(m * x, orders);
    Coefficients found;
    double psi_before = std::cos(x);
    double psi = std::sin(x);
    double chi_before = -std::sin(x);
    double chi = std::cos(x);
    for (std::size_t n = 1; n <= orders; ++n) {
        const auto order = static_cast<double>(n);
        const double psi_next = (2.0 * order - 1.0) * psi / x - psi_before;
        const double chi_next = (2.0 * order - 1.0) * chi / x - chi_before;
        const Complex xi_next{psi_next, -chi_next};
        const Complex xi{psi, -chi};
        const Complex electric = d[n] / m + order / x;
        const Complex magnetic = d[n] * m + order / x;
        found.a.push_back((electric * psi_next - psi) / (electric * xi_next - xi));
        found.b.push_back((magnetic * psi_next - psi) / (magnetic * xi_next - xi));
        psi_before = psi;
        psi = psi_next;
        chi_before = chi;
        chi = chi_next;
    }
    return found;
}

double intensity_at(const Coefficients& c, double cosine) {
    Complex s1{};
    Complex s2{};
    double pi_before = 0.0;
    double pi = 1.0;
    for (std::size_t i = 0; i < c.a.size(); ++i) {
        const double n = static_cast<double>(i) + 1.0;
        const double tau = n * cosine * pi - (n + 1.0) * pi_before;
        const double weight = (2.0 * n + 1.0) / (n * (n + 1.0));
        s1 += weight * (c.a[i] * pi + c.b[i] * tau);
        s2 += weight * (c.a[i] * tau + c.b[i] * pi);
        const double pi_next = ((2.0 * n + 1.0) * cosine * pi - (n + 1.0) * pi_before) / n;
        pi_before = pi;
        pi = pi_next;
    }
    return 0.5 * (std::norm(s1) + std::norm(s2));
}

}  // namespace

MieSphere mie_sphere(double x, std::complex<double> m, std::span<const double> cosines) {
    const Coefficients c = coefficients(x, m);
    MieSphere sphere;
    double forward = 0.0;
    for (std::size_t i = 0; i < c.a.size(); ++i) {
        const double n = static_cast<double>(i) + 1.0;
        sphere.extinction += (2.0 * n + 1.0) * (c.a[i] + c.b[i]).real();
        sphere.scattering += (2.0 * n + 1.0) * (std::norm(c.a[i]) + std::norm(c.b[i]));
        forward += (2.0 * n + 1.0) / (n * (n + 1.0)) * (c.a[i] * std::conj(c.b[i])).real();
        if (i + 1 < c.a.size()) {
            forward += n * (n + 2.0) / (n + 1.0) *
                       (c.a[i] * std::conj(c.a[i + 1]) + c.b[i] * std::conj(c.b[i + 1])).real();
        }
    }
    sphere.asymmetry = 2.0 * forward / sphere.scattering;
    sphere.extinction *= 2.0 / (x * x);
    sphere.scattering *= 2.0 / (x * x);
    for (const double cosine : cosines) {
        sphere.intensity.push_back(intensity_at(c, cosine));
    }
    return sphere;
}

}  // namespace gloam::montecarlo
