#include "weather/wanted.hpp"

#include <algorithm>

#include "weather/grid_window.hpp"

namespace gloam::weather {
namespace {

template <class T>
std::vector<T> part_of(const std::vector<T>& whole, const Grid& grid, const GridWindow& window) {
    if (whole.empty()) {
        return {};
    }
    std::vector<T> part(window.rows * window.columns);
    for (std::size_t cell = 0; cell < part.size(); ++cell) {
        part[cell] = whole[cell_of_whole(grid, window, cell)];
    }
    return part;
}

}  // namespace

bool is_wanted(const Wanted& wanted, const FieldHeader& field) {
    const bool quantity = wanted.quantities.empty() ||
                          std::ranges::find(wanted.quantities, field.quantity) != wanted.quantities.end();
    const bool time = !wanted.span || (field.to >= wanted.span->from - kLongestGap &&
                                       field.from <= wanted.span->to + kLongestGap);
    return quantity && time;
}

void crop(const Wanted& wanted, Field& field) {
    const auto window =
        wanted.round ? window_round(field.grid, wanted.round->centre, wanted.round->radius_m) : std::nullopt;
    if (!window || window->rows * window->columns == field.values.size()) {
        return;
    }
    field.values = part_of(field.values, field.grid, *window);
    field.present = part_of(field.present, field.grid, *window);
    field.grid = cropped(field.grid, *window);
}

}  // namespace gloam::weather
