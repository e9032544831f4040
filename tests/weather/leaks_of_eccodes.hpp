#pragma once

#if defined(__SANITIZE_ADDRESS__)
#include <sanitizer/lsan_interface.h>
#endif

namespace gloam::weather {

/// ecCodes 2.28 loses a few hundred bytes where it gives up on a damaged message. While one of these lives,
/// the leak check of a sanitizer build looks away; everything else of that build stays on.
class [[maybe_unused]] LeaksOfEccodes {
  public:
#if defined(__SANITIZE_ADDRESS__)
    LeaksOfEccodes() { __lsan_disable(); }
    ~LeaksOfEccodes() { __lsan_enable(); }
#else
    LeaksOfEccodes() = default;
    ~LeaksOfEccodes() = default;
#endif
    LeaksOfEccodes(const LeaksOfEccodes&) = delete;
    LeaksOfEccodes& operator=(const LeaksOfEccodes&) = delete;
};

}  // namespace gloam::weather
