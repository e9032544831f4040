#pragma once

#include "weather/field.hpp"

namespace gloam::weather {

/// Relative humidity, 0..1, from which on there is cloud at this pressure: .7 aloft, .9 at 1013.25 hPa.
/// Source: Lohmann and Roeckner 1996, Clim. Dyn. 12, 557; its form is that of ECHAM's and ICON's mo_cover,
/// which were read; the three numbers (.7, .9, exponent 4; ECHAM4) are from memory, and later versions tune
/// them.
double critical_humidity(double pressure_pa);

/// Cloud cover, 0..1, of air of this relative humidity (0 and above; all above 1 is overcast):
/// 1 - sqrt((1 - RH) / (1 - RHc)). Source: Sundqvist, Berge, Kristjansson 1989, Mon. Wea. Rev. 117, 1641, in
/// the form of mo_cover, as above. Doubt: docs/forecast.md, "Cloud from humidity".
double cover_from_humidity(double humidity, double pressure_pa);

/// Cover on the pressure level of a field of humidity, cell by cell.
Field humidity_cover(const Field& humidity);

}  // namespace gloam::weather
