#pragma once

#include <stdexcept>

namespace gloam {

/// Thrown when the program breaks a promise of its own (never because of input).
class InternalError : public std::logic_error {
    using std::logic_error::logic_error;
};

namespace detail {
[[noreturn]] void check_failed(const char* condition, const char* file, int line);
}

}  // namespace gloam

/// Asserts a promise in every build type; throws InternalError with the place if it is broken.
#define GLOAM_CHECK(condition) \
    ((condition) ? static_cast<void>(0) : ::gloam::detail::check_failed(#condition, __FILE__, __LINE__))
