#pragma once

#include <string>
#include <vector>

#include "base/instant.hpp"

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
    double alarm_after_min = 60.0;   ///< the alarm is raised so long after the group should be back
};

/// The limits that are looser than the built-in ones, in words: "gusts at an edge from 20 m/s (built in:
/// 15)".
std::vector<std::string> loosened(const CautionLimits& limits);

}  // namespace gloam::decide
