#include "base/kinds.hpp"

using namespace gloam;

double lifted(TrueAltitude altitude) {
    return altitude.angle.degrees() + 0.5;
}
double dip(HeightAboveHorizon height) {
    return height.metres;
}

double altitudes(ApparentAltitude apparent, Angle bare) {
#ifdef APPARENT_FOR_TRUE  // could not convert 'apparent' from .*ApparentAltitude' to .*TrueAltitude'
    lifted(apparent);
#endif
#ifdef BARE_ANGLE_FOR_TRUE  // could not convert 'bare' from .*Angle' to .*TrueAltitude'
    lifted(bare);
#endif
#ifdef APPARENT_ABOVE_TRUE  // no match for 'operator>'
    return apparent > TrueAltitude{bare} ? 1.0 : 0.0;
#endif
    return lifted(TrueAltitude{bare}) + apparent.angle.degrees();
}

double heights(HeightMsl msl, double number) {
#ifdef MSL_FOR_EYE  // could not convert 'msl' from .*HeightMsl' to .*HeightAboveHorizon'
    dip(msl);
#endif
#ifdef NUMBER_FOR_EYE  // could not convert 'number' from 'double' to .*HeightAboveHorizon'
    dip(number);
#endif
    return dip(HeightAboveHorizon{number}) + msl.metres;
}

double directions(Azimuth azimuth, Angle bare) {
#ifdef ANGLE_FOR_AZIMUTH  // could not convert 'bare' from .*Angle' to .*Azimuth'
    turn(azimuth, bare);
#endif
#ifdef AZIMUTH_FOR_ANGLE  // conversion from .*Azimuth' to non-scalar type 'const gloam::Angle'
    const Angle angle = azimuth;
#endif
    return turn(azimuth, Azimuth::radians(bare.radians())).degrees();
}
