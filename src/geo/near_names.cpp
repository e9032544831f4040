#include "geo/near_names.hpp"

#include <algorithm>
#include <numeric>

namespace gloam::geo {
namespace {

constexpr std::size_t kMostNames = 3;
constexpr std::size_t kLongestWord = 64;

struct Candidate {
    std::size_t changes = 0;
    std::string name;
};

/// Spelling without case, with the space that people write for the underscore of zone names.
std::string folded(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), [](char c) {
        const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        return lower == ' ' ? '_' : lower;
    });
    return out;
}

std::string_view last_part(std::string_view name) {
    return name.substr(name.rfind('/') + 1);
}

/// Levenshtein distance (Wagner and Fischer 1974, one row kept).
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i] == b[j] ? 0U : 1U);
            diagonal = row[j + 1];
            row[j + 1] = std::min({replaced, row[j] + 1, diagonal + 1});
        }
    }
    return row.back();
}

}  // namespace

std::vector<std::string> near_names(std::string_view wanted, const std::vector<std::string>& names) {
    if (wanted.empty() || wanted.size() > kLongestWord) {
        return {};
    }
    const std::string word = folded(wanted);
    std::vector<Candidate> candidates;
    for (const std::string& name : names) {
        const std::string whole = folded(name);
        const std::size_t changes =
            std::min(edit_distance(word, whole), edit_distance(last_part(word), last_part(whole)));
        if (changes * 3 <= last_part(word).size()) {
            candidates.push_back({changes, name});
        }
    }
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const Candidate& a, const Candidate& b) { return a.changes < b.changes; });
    candidates.resize(std::min(candidates.size(), kMostNames));
    std::vector<std::string> best;
    best.reserve(candidates.size());
    for (Candidate& candidate : candidates) {
        best.push_back(std::move(candidate.name));
    }
    return best;
}

}  // namespace gloam::geo
