#pragma once

#include "decide/cautions.hpp"

namespace gloam::decide {

/// Parts of cautions_of(), each adding what it finds.
void add_water_cautions(const OutingFacts& facts, std::vector<Caution>& cautions);
void add_site_cautions(const OutingFacts& facts, std::vector<Caution>& cautions);
void add_way_cautions(const OutingFacts& facts, std::vector<Caution>& cautions);
void add_people_cautions(const OutingFacts& facts, std::vector<Caution>& cautions);
void add_weather_cautions(const OutingFacts& facts, std::vector<Caution>& cautions);
void add_warning_cautions(const OutingFacts& facts, std::vector<Caution>& cautions);

inline constexpr const char* kBuiltIn = "built-in text";

inline bool has_tag(const OutingFacts& facts, trip::PlaceTag tag) {
    for (const trip::PlaceTag one : facts.place->tags) {
        if (one == tag) {
            return true;
        }
    }
    return false;
}

}  // namespace gloam::decide
