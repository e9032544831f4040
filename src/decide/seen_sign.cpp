#include "decide/seen_sign.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace gloam::decide {
namespace {

constexpr double kLeastOdds = 0.02;
constexpr double kMostOdds = 0.98;

std::string words_known() {
    std::string words;
    for (const SeenSign& sign : kSeenSigns) {
        words += fmt::format("{}{} ({})", words.empty() ? "give one of: " : "; ", sign.word, sign.means);
    }
    return words;
}

}  // namespace

Result<SeenSign> seen_sign(std::string_view word) {
    const auto* const found = std::ranges::find(kSeenSigns, word, &SeenSign::word);
    if (found == kSeenSigns.end()) {
        return fail(ErrorKind::kBadInput, fmt::format("'{}' is no sign that is known", word), "--seen",
                    words_known());
    }
    return *found;
}

double odds_after(double odds, double likelihood_ratio) {
    const double ratio = odds / (1.0 - odds) * likelihood_ratio;
    return std::clamp(ratio / (1.0 + ratio), kLeastOdds, kMostOdds);
}

}  // namespace gloam::decide
