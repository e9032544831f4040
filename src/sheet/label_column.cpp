#include "sheet/label_column.hpp"

#include <algorithm>
#include <numeric>

namespace gloam::sheet {

std::vector<double> label_tops(const std::vector<LabelRoom>& labels, double top, double bottom) {
    std::vector<std::size_t> order(labels.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return labels[a].wanted_top < labels[b].wanted_top;
    });
    std::vector<double> tops(labels.size());
    double free_from = top;
    for (const std::size_t i : order) {
        tops[i] = std::max(labels[i].wanted_top, free_from);
        free_from = tops[i] + labels[i].height;
    }
    double free_to = bottom;
    for (auto i = order.rbegin(); i != order.rend(); ++i) {
        tops[*i] = std::min(tops[*i], free_to - labels[*i].height);
        free_to = tops[*i];
    }
    return tops;
}

}  // namespace gloam::sheet
