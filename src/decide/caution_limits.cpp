#include "decide/caution_limits.hpp"

#include <fmt/format.h>

namespace gloam::decide {

std::vector<std::string> loosened(const CautionLimits& limits) {
    const CautionLimits built_in;
    std::vector<std::string> words;
    for (const NamedLimit& limit : kNamedLimits) {
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
