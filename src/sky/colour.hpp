#pragma once

#include <array>

namespace gloam::sky {

/// CIE 1931 tristimulus values. For a sky direction absolute: Y in cd m-2; for a surface lit by it: Y in lx.
struct Xyz {
    double x = 0.0;
    double y = 0.0;
    double z = 0.0;

    friend constexpr Xyz operator+(Xyz a, Xyz b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend constexpr Xyz operator*(Xyz a, double factor) {
        return {a.x * factor, a.y * factor, a.z * factor};
    }
};

/// Daylight white of luminance 1. Source: CIE 15:2004, D65, 2-degree observer.
inline constexpr Xyz kD65{0.95047, 1.0, 1.08883};

/// CIE 1931 chromaticity.
struct Chromaticity {
    double x = 0.0;
    double y = 0.0;
};
Chromaticity chromaticity(const Xyz& colour);

/// CIE 1976 L*a*b*.
struct Lab {
    double lightness = 0.0;
    double a = 0.0;
    double b = 0.0;
};

/// L*a*b* of `colour` against a D65 white of luminance 1. Source: CIE 15:2004, 8.2.1.
Lab lab_of(const Xyz& colour);

/// Linear sRGB, 0..1 inside the gamut, from XYZ with white Y = 1 and back. Source: IEC 61966-2-1:1999.
using LinearRgb = std::array<double, 3>;
LinearRgb linear_rgb(const Xyz& colour);
Xyz xyz_of(const LinearRgb& rgb);

}  // namespace gloam::sky
