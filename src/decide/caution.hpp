#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "base/instant.hpp"

namespace gloam::decide {

/// What a caution is about: the rows of docs/cautions.md, by their numbers.
enum class Hazard {
    kTide = 3,
    kWaves = 4,
    kEdge = 5,
    kIceAndMud = 6,
    kDarkWalk = 7,
    kTiredDriver = 8,
    kWarning = 9,
    kLightning = 10,
    kWind = 11,
    kColdAndHeat = 12,
    kFog = 13,
    kApart = 14,
    kHealth = 15,
    kHelp = 16,
    kAccess = 17,
    kDrones = 18,
    kWildlife = 19,
    kRoadAndSite = 21,
    kGear = 22,
    kOwnNote = 23,  ///< the leader's own, of the place
    kUnknown = 24,  ///< what the program does not know
};

/// All of them, by their numbers.
inline constexpr std::array kHazards{
    Hazard::kTide,        Hazard::kWaves,    Hazard::kEdge,        Hazard::kIceAndMud, Hazard::kDarkWalk,
    Hazard::kTiredDriver, Hazard::kWarning,  Hazard::kLightning,   Hazard::kWind,      Hazard::kColdAndHeat,
    Hazard::kFog,         Hazard::kApart,    Hazard::kHealth,      Hazard::kHelp,      Hazard::kAccess,
    Hazard::kDrones,      Hazard::kWildlife, Hazard::kRoadAndSite, Hazard::kGear,      Hazard::kOwnNote,
    Hazard::kUnknown};

/// "tide", "waves" and so on: the word by which a caution is set aside.
std::string_view name_of(Hazard hazard);

enum class CautionKind {
    kStop,  ///< a hard fact stands against the plan
    kMind,  ///< to be read once by the leader
    kNote,  ///< for the briefing
};

/// "STOP", "MIND" or "NOTE".
std::string_view name_of(CautionKind kind);

/// One caution: a fact or a limit, its source, and who is to be asked. It never says that a risk is
/// acceptable.
struct Caution {
    Hazard hazard = Hazard::kUnknown;
    CautionKind kind = CautionKind::kNote;
    std::string text = {};               ///< one plain sentence or two
    std::string source = {};             ///< who says so and as of when
    std::string ask = {};                ///< who outranks it; empty: nobody beyond the leader
    std::string set_aside_because = {};  ///< the leader's reason; empty: it stands
};

/// Stops first, then what to mind, then notes; within each by number.
void put_in_order(std::vector<Caution>& cautions);

/// Whether a caution goes with the message to guests whatever else it leaves out.
bool is_for_guests(Hazard hazard);

}  // namespace gloam::decide
