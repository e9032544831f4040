#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "geo/zone.hpp"
#include "outlook/section.hpp"
#include "sheet/drawing.hpp"

namespace gloam::sheet {

/// What stands above and below a section; any text, none of it trusted.
struct SectionCaption {
    std::string title;   ///< e.g. "Dawn, Wed 29 Jan 2025, Harbour wall"
    std::string source;  ///< e.g. "NCEP GFS, run 2025-01-29 00 UTC, 6 h old"
};

/// Widths that a drawing may have, pixels.
inline constexpr double kLeastWidth_px = 200.0;
inline constexpr double kMostWidth_px = 8000.0;

/// Bytes of a file with the section, `width_px` wide (rounded to whole pixels) and as high as it needs, times
/// on the clock of `zone`. The same input gives the same bytes with the same fonts. Error (kOutOfDomain): a
/// width below kLeastWidth_px or above kMostWidth_px.
Result<std::vector<std::byte>> draw_section(const outlook::Section& section, const SectionCaption& caption,
                                            const geo::Zone& zone, DrawingFormat format,
                                            double width_px = 1200.0);

}  // namespace gloam::sheet
