#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "trip/trip.hpp"

namespace gloam::trip {

/// A value and the word that stands for it in files.
template <class Kind>
struct Word {
    Kind kind;
    std::string_view word;
};

/// The words for what lies round a stand.
constexpr auto words_of(sky::Ground) {
    using enum sky::Ground;
    return std::array<Word<sky::Ground>, 3>{{{kWater, "water"}, {kLand, "land"}, {kSnow, "snow"}}};
}

/// The words for the water in front of a place.
constexpr auto words_of(Water) {
    using enum Water;
    return std::array<Word<Water>, 4>{{{kNone, "none"}, {kStill, "still"}, {kRiver, "river"}, {kSea, "sea"}}};
}

/// The words for a part of the way.
constexpr auto words_of(LegKind) {
    using enum LegKind;
    return std::array<Word<LegKind>, 2>{{{kDrive, "drive"}, {kWalk, "walk"}}};
}

/// The words for what calls for a caution.
constexpr auto words_of(PlaceTag) {
    using enum PlaceTag;
    return std::array<Word<PlaceTag>, 14>{{{kCoast, "coast"},
                                           {kCliff, "cliff"},
                                           {kQuay, "quay"},
                                           {kIce, "ice"},
                                           {kRiver, "river"},
                                           {kMud, "mud"},
                                           {kValley, "valley"},
                                           {kRoad, "road"},
                                           {kRailway, "railway"},
                                           {kQuarry, "quarry"},
                                           {kFiringRange, "firing_range"},
                                           {kLivestock, "livestock"},
                                           {kWildlifeSeason, "wildlife_season"},
                                           {kProtected, "protected"}}};
}

/// The words for a camera's finder.
constexpr auto words_of(Finder) {
    using enum Finder;
    return std::array<Word<Finder>, 3>{
        {{kUnknown, "unknown"}, {kOptical, "optical"}, {kElectronic, "electronic"}}};
}

/// The word of a value.
template <class Kind>
constexpr std::string_view word_of(Kind kind) {
    for (const auto& [each, word] : words_of(kind)) {
        if (each == kind) {
            return word;
        }
    }
    return {};
}

/// The value of a word; absent if there is none of that name.
template <class Kind>
constexpr std::optional<Kind> from_word(std::string_view text) {
    for (const auto& [each, word] : words_of(Kind{})) {
        if (word == text) {
            return each;
        }
    }
    return std::nullopt;
}

}  // namespace gloam::trip
