#include "tide/harmonics.hpp"

#include <cmath>

#include "astro/monotone.hpp"

namespace gloam::tide {
namespace {

double height_m(const HarmonicPort& port, Instant instant) {
    const Longitudes longitudes = longitudes_at(instant);
    double sum_m = port.mean_m;
    for (const Constituent& constituent : port.constituents) {
        const NodalCorrection nodal = nodal_correction(constituent.wave, longitudes);
        const Angle argument =
            equilibrium_argument(constituent.wave, longitudes) + nodal.phase - constituent.phase_lag;
        sum_m += nodal.factor * constituent.amplitude_m * std::cos(argument.radians());
    }
    return sum_m;
}

/// Of equal heights in a row the last is the turn.
TideKind kind_between(double before_m, double height_m, double after_m) {
    if (height_m >= before_m && height_m > after_m) {
        return TideKind::kHigh;
    }
    return height_m <= before_m && height_m < after_m ? TideKind::kLow : TideKind::kHeight;
}

}  // namespace

TideHeight predicted_height(const HarmonicPort& port, Instant instant) {
    return {height_m(port, instant), port.datum};
}

TideTable predicted_table(const HarmonicPort& port, geo::InstantSpan span) {
    TideTable table{port.port, port.datum, std::string(kHarmonicSource), port.issued, {}};
    const auto curve = [&](Instant instant) { return height_m(port, instant); };
    for (const Instant knot : astro::monotone_knots(curve, span)) {
        table.rows.push_back({knot, curve(knot), TideKind::kHeight});
    }
    for (std::size_t i = 1; i + 1 < table.rows.size(); ++i) {
        table.rows[i].kind =
            kind_between(table.rows[i - 1].height_m, table.rows[i].height_m, table.rows[i + 1].height_m);
    }
    return table;
}

}  // namespace gloam::tide
