#pragma once

#include <string>
#include <string_view>

namespace gloam::weather {

/// What a field measures. Values are kept in the unit named here.
enum class Quantity {
    kCloudCover,          ///< fraction of the area, 0..1
    kRelativeHumidity,    ///< fraction of saturation, as the centre defines it; 0 and above, also above 1
    kGeopotentialHeight,  ///< of a pressure surface, metres above mean sea level
    kCloudHeight,    ///< of a cloud base, top or ceiling, metres above the sea or the ground as the centre
                     ///< counts
    kPressure,       ///< Pa
    kTemperature,    ///< K
    kDewPoint,       ///< K
    kWindEast,       ///< m/s, towards the east
    kWindNorth,      ///< m/s, towards the north
    kGust,           ///< m/s
    kVisibility,     ///< m
    kPrecipitation,  ///< kg/m2 over the span of the field
    kPrecipitationRate,  ///< kg/m2/s
    kCape,               ///< convective available potential energy, J/kg
    kThunder,            ///< probability of thunder, 0..1
    kAerosolDepth,       ///< optical depth of the species and wavelength that the field names
    kAerosolExtinction,  ///< 1/m, likewise
    kOzoneColumn,        ///< Dobson units
};

/// What is known of a quantity: its name in words, its unit, and which values can be.
struct QuantityFacts {
    std::string_view name;
    std::string_view unit;  ///< as printed; the values are in it without a factor
    double least;           ///< values beyond least..most are impossible: the field is damaged or mislabelled
    double most;
    double floor;  ///< values of least..floor and ceiling..most are packing noise and are clamped
    double ceiling;
};
const QuantityFacts& facts_of(Quantity quantity);

/// "cloud cover", "relative humidity", ...
std::string_view name_of(Quantity quantity);

/// "a cloud cover of 140 % is impossible": shares are told in percent, everything else in its unit.
std::string impossible_value(Quantity quantity, double value);

}  // namespace gloam::weather
