#include "base/angle.hpp"

using gloam::Angle;

Angle sum(Angle a, double number) {
#ifdef PLUS_NUMBER  // no match for 'operator.'
    return a + number;
#endif
#ifdef MINUS_NUMBER  // no match for 'operator-'
    return a - number;
#endif
#ifdef TIMES_ANGLE  // no match for 'operator.'
    return a * a;
#endif
    return a + Angle::degrees(number) * 2.0;
}

Angle made(double number) {
#ifdef FROM_NUMBER  // could not convert 'number' from 'double' to 'gloam::Angle'
    return number;
#endif
#ifdef BY_CONSTRUCTOR  // .*Angle::Angle.double.' is private
    return Angle(number);
#endif
    return Angle::radians(number);
}

double read(Angle a) {
#ifdef TO_NUMBER  // cannot convert 'gloam::Angle' to 'double'
    return a;
#endif
    return a.radians();
}

bool above(Angle a, double number) {
#ifdef AGAINST_NUMBER  // no match for 'operator>'
    return a > number;
#endif
    return a > Angle::degrees(number);
}
