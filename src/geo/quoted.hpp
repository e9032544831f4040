#pragma once

#include <string>
#include <string_view>

namespace gloam::geo {

/// The caller's words in single quotes, fit for a message: at most 40 bytes of them, each byte that is not
/// printable ASCII shown as '?'.
std::string quoted(std::string_view text);

}  // namespace gloam::geo
