#pragma once

#include <vector>

namespace gloam::sheet {

/// Room that a label of a column would take, pixels downwards.
struct LabelRoom {
    double wanted_top = 0.0;
    double height = 0.0;
};

/// Tops at which labels one below the other do not overlap, each as near to where it wants to be as those
/// above it allow, all within top and bottom as far as there is room. In the order given, which may be any.
std::vector<double> label_tops(const std::vector<LabelRoom>& labels, double top, double bottom);

}  // namespace gloam::sheet
