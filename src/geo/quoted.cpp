#include "geo/quoted.hpp"

#include <algorithm>

namespace gloam::geo {

std::string quoted(std::string_view text) {
    constexpr std::size_t kLongest = 40;
    std::string shown(text.substr(0, kLongest));
    std::replace_if(
        shown.begin(), shown.end(), [](char c) { return c < ' ' || c > '~'; }, '?');
    return "'" + shown + (text.size() > kLongest ? "...'" : "'");
}

}  // namespace gloam::geo
