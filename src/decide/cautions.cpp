#include "decide/cautions.hpp"

#include <cmath>

#include "decide/caution_parts.hpp"

namespace gloam::decide {

std::vector<Caution> cautions_of(const OutingFacts& facts) {
    std::vector<Caution> cautions;
    for (const trip::DatedNote& note : facts.place->notes) {
        cautions.push_back({Hazard::kOwnNote, CautionKind::kMind, note.text,
                            "your note of " + gloam::to_text(note.date), "", ""});
    }
    add_water_cautions(facts, cautions);
    add_site_cautions(facts, cautions);
    add_way_cautions(facts, cautions);
    add_people_cautions(facts, cautions);
    add_weather_cautions(facts, cautions);
    add_warning_cautions(facts, cautions);
    put_in_order(cautions);
    return cautions;
}

double feels_like_c(double temperature_c, double wind_m_s) {
    constexpr double kLeastWind_m_s = 4.8 / 3.6;
    if (temperature_c > 10.0 || wind_m_s < kLeastWind_m_s) {
        return temperature_c;
    }
    const double power = std::pow(3.6 * wind_m_s, 0.16);
    return 13.12 + 0.6215 * temperature_c - 11.37 * power + 0.3965 * temperature_c * power;
}

}  // namespace gloam::decide
