#pragma once

#include <string>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/grib/grid.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// What became of the values that could not be taken as they stand.
struct OddValues {
    std::size_t clamped = 0;    ///< shares a little outside 0..1, brought to its edge
    std::size_t sentinels = 0;  ///< numbers that stand for "no value", masked
};

/// Unpacks the values, brings them into our order and unit and checks them: `field.values` and
/// `field.present`. `field` already knows its quantity, grid and origin; the packing of `grib` has been
/// checked. `packed` is overwritten; to give the same vector for
/// every field saves memory from being had anew.
///
/// A value that is impossible for its quantity but equals, in the unit of the file, a number that is
/// customary for "no value" (-9999, 9.999e20, 2147483647, -1e100, -999, -500) is masked. Of heights of cloud,
/// -500 and -999 are such numbers too, though other heights down there pass. Error in words if the values
/// cannot be unpacked or any other is impossible, NaN and infinity among them.
tl::expected<OddValues, std::string> fill_values(Field& field, const GribField& grib, GribHandle& handle,
                                                 const ScanOrder& order, double to_our_unit,
                                                 std::vector<double>& packed);

/// Whether a field of cover or humidity that was read as percent, because its header says so, can only hold
/// fractions of 0..1 instead. What reaches half a percent over a twentieth of an area does not end at one
/// percent all over it: of 21 288 windows of 32 x 32 cells on the stored GFS fields of cover, in percent,
/// none looks so, nor any of 15 399 on an IFS field that was turned into percent, nor any of 8312 on fields
/// of humidity of GFS, IFS and WRF (judgement). Air that is as dry as that everywhere, high in the
/// stratosphere, holds no cloud that anybody would miss.
bool is_fraction_called_percent(const Field& field);

}  // namespace gloam::weather
