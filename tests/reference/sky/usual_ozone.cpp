// Usual ozone by place and season against the columns of the AFGL atmospheres (Anderson et al. 1986, AFGL-TR-
// 86-0110), integrated from their tables, and against the example of another program of the same formula.
#include <gtest/gtest.h>

#include "reference/astro/worst.hpp"
#include "sky/ozone.hpp"

namespace gloam::sky {
namespace {

/// Mean of a parallel, and of the days from `first` to `last`.
double zonal_mean_du(double latitude_deg, int first, int last) {
    double sum = 0.0;
    int count = 0;
    for (int day = first; day <= last; day += 7) {
        for (int longitude_deg = -175; longitude_deg <= 180; longitude_deg += 5) {
            sum += usual_ozone_du(Angle::degrees(latitude_deg), Angle::degrees(longitude_deg), day);
            ++count;
        }
    }
    return sum / count;
}

// One column varies by as much from day to day.
TEST(UsualOzone, IsThatOfTheAfglAtmospheresWithin15Percent) {
    struct Column {
        const char* name;
        double latitude_deg;
        int first_day, last_day;
        double afgl_du;
    };
    test::Worst worst;
    for (const Column& column :
         {Column{"tropics", 15.0, 1, 365, 284.0}, Column{"45 N, July", 45.0, 182, 212, 336.0},
          Column{"45 N, January", 45.0, 1, 31, 380.0}, Column{"60 N, July", 60.0, 182, 212, 349.0},
          Column{"60 N, January", 60.0, 1, 31, 377.0}}) {
        const double ours = zonal_mean_du(column.latitude_deg, column.first_day, column.last_day);
        std::printf("%s: %.0f DU, AFGL %.0f\n", column.name, ours, column.afgl_du);
        worst.add(100.0 * (ours / column.afgl_du - 1.0), column.name);
    }
    worst.report("usual ozone", "%");
    EXPECT_LT(worst.value(), 15.0);
}

// Example in the comment of a program by W. Broenkow and S. Flora, 1997: 36 N 122 W, day 185.
TEST(UsualOzone, IsThatOfAnotherProgramOfTheFormula) {
    EXPECT_NEAR(usual_ozone_du(Angle::degrees(36.0), Angle::degrees(-122.0), 185), 321.2, 0.05);
}

}  // namespace
}  // namespace gloam::sky
