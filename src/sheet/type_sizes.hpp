#pragma once

namespace gloam::sheet {

/// The three sizes of type on a page of some width, pixels, and the unit for lines and gaps.
struct TypeSizes {
    double large_px = 0.0;
    double medium_px = 0.0;
    double small_px = 0.0;
    double unit_px = 0.0;  ///< 1 on a laptop's 1200 px
    bool narrow = false;   ///< as a phone is: say less
};

/// From a phone's 390 px to a laptop's 1200 px type grows much less than the page; beyond, with it.
TypeSizes type_sizes(double width_px);

}  // namespace gloam::sheet
