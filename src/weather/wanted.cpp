#include "weather/wanted.hpp"

#include <algorithm>

namespace gloam::weather {

bool is_wanted(const Wanted& wanted, const FieldHeader& field) {
    const bool quantity = wanted.quantities.empty() ||
                          std::ranges::find(wanted.quantities, field.quantity) != wanted.quantities.end();
    const bool time = !wanted.span || (field.to >= wanted.span->from - kLongestGap &&
                                       field.from <= wanted.span->to + kLongestGap);
    return quantity && time;
}

}  // namespace gloam::weather
