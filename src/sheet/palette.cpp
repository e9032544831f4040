#include "sheet/palette.hpp"

#include <array>

namespace gloam::sheet {

Colour tone_of(weather::Band band) {
    constexpr std::array<Colour, 3> kTones{{{0.24, 0.32, 0.42}, {0.36, 0.47, 0.60}, {0.48, 0.60, 0.74}}};
    return kTones[weather::index_of(band)];
}

Colour type_tone_of(weather::Band band) {
    constexpr double kDarker = 0.7;
    const Colour tone = tone_of(band);
    return {kDarker * tone.red, kDarker * tone.green, kDarker * tone.blue};
}

}  // namespace gloam::sheet
