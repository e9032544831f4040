#include "base/check.hpp"

#include <fmt/format.h>

namespace gloam::detail {

void check_failed(const char* condition, const char* file, int line) {
    throw InternalError(fmt::format("broken promise in {}:{}: {}", file, line, condition));
}

}  // namespace gloam::detail
