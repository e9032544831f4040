#include "decide/caution_limits.hpp"

#include <fmt/format.h>

#include <array>

namespace gloam::decide {
namespace {

/// A limit, its name, and which way is looser.
struct Limit {
    double CautionLimits::*value;
    const char* words;  ///< with a place for the number
    bool looser_upward;
};

constexpr std::array<Limit, 9> kLimits{{
    {&CautionLimits::gust_at_edge_m_s, "gusts at an edge from {:g} m/s", true},
    {&CautionLimits::gust_on_quay_m_s, "gusts on a quay from {:g} m/s", true},
    {&CautionLimits::feels_cold_c, "cold below {:g} C", false},
    {&CautionLimits::wet_cold_c, "wet and cold below {:g} C", false},
    {&CautionLimits::heat_c, "heat above {:g} C", true},
    {&CautionLimits::fog_m, "fog below {:g} m", false},
    {&CautionLimits::least_sleep_h, "short sleep below {:g} h", false},
    {&CautionLimits::stale_h, "data counted as known for {:g} h", true},
    {&CautionLimits::alarm_after_min, "alarm raised {:g} min late", true},
}};

}  // namespace

std::vector<std::string> loosened(const CautionLimits& limits) {
    const CautionLimits built_in;
    std::vector<std::string> words;
    for (const Limit& limit : kLimits) {
        const double set = limits.*limit.value;
        const double usual = built_in.*limit.value;
        if (limit.looser_upward ? set > usual : set < usual) {
            words.push_back(
                fmt::format("{} (built in: {:g})", fmt::format(fmt::runtime(limit.words), set), usual));
        }
    }
    return words;
}

}  // namespace gloam::decide
