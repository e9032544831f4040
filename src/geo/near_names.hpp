#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gloam::geo {

/// Up to three of `names` that a person who wrote `wanted` may have meant, best first: those fewest
/// single-letter changes away, upper and lower case alike, where the last part of a name ("Oslo" of
/// "Europe/Oslo") may stand for the whole. Names more than a third of the letters away are left out.
std::vector<std::string> near_names(std::string_view wanted, const std::vector<std::string>& names);

}  // namespace gloam::geo
