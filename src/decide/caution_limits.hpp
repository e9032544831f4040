#pragma once

#include <array>
#include <string>
#include <vector>

namespace gloam::decide {

/// Limits beyond which cautions are shown: starting rules, no source but common practice, which the leader
/// may tighten, and loosen in plain sight.
struct CautionLimits {
    double gust_at_edge_m_s = 15.0;  ///< shown above
    double gust_on_quay_m_s = 10.0;  ///< shown above
    double feels_cold_c = -5.0;      ///< shown below
    double wet_cold_c = 5.0;         ///< shown below, if it rains
    double heat_c = 30.0;            ///< shown above
    double fog_m = 200.0;            ///< visibility, shown below
    double least_sleep_h = 6.0;      ///< shown below
    double stale_h = 12.0;           ///< age of data from which it counts as unknown
    double tide_reserve_min = 30.0;  ///< kept from the tide, besides the walk
    double tide_walk_factor = 1.5;   ///< the walk counts so many times against the tide
    double walked_within_d = 365.0;  ///< a way walked longer ago is said to be
    double thunder = 0.05;           ///< probability of thunder from which it is shown
    double cape_j_kg = 500.0;        ///< instability from which thunder is shown
    double alarm_after_min = 60.0;   ///< the alarm is raised so long after the group should be back
};

/// A limit by the name that settings have for it.
struct NamedLimit {
    double CautionLimits::*value;
    const char* name;
    const char* words;  ///< for people, with a place for the number
    bool looser_upward;
};

inline constexpr std::array<NamedLimit, 14> kNamedLimits{{
    {&CautionLimits::gust_at_edge_m_s, "gust_at_edge_m_s", "gusts at an edge from {:g} m/s", true},
    {&CautionLimits::gust_on_quay_m_s, "gust_on_quay_m_s", "gusts on a quay from {:g} m/s", true},
    {&CautionLimits::feels_cold_c, "feels_cold_c", "cold below {:g} C", false},
    {&CautionLimits::wet_cold_c, "wet_cold_c", "wet and cold below {:g} C", false},
    {&CautionLimits::heat_c, "heat_c", "heat above {:g} C", true},
    {&CautionLimits::fog_m, "fog_m", "fog below {:g} m", false},
    {&CautionLimits::least_sleep_h, "least_sleep_h", "short sleep below {:g} h", false},
    {&CautionLimits::stale_h, "stale_h", "data counted as known for {:g} h", true},
    {&CautionLimits::tide_reserve_min, "tide_reserve_min", "{:g} min kept from the tide", false},
    {&CautionLimits::tide_walk_factor, "tide_walk_factor", "the walk counted {:g} times against the tide",
     false},
    {&CautionLimits::walked_within_d, "walked_within_d", "a way counted as walked for {:g} days", true},
    {&CautionLimits::thunder, "thunder", "thunder from a probability of {:g}", true},
    {&CautionLimits::cape_j_kg, "cape_j_kg", "thunder from {:g} J/kg", true},
    {&CautionLimits::alarm_after_min, "alarm_after_min", "alarm raised {:g} min late", true},
}};

/// The limits that are looser than the built-in ones, in words: "gusts at an edge from 20 m/s (built in:
/// 15)".
std::vector<std::string> loosened(const CautionLimits& limits);

}  // namespace gloam::decide
