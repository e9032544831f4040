#include "weather/quantity.hpp"

#include <fmt/format.h>

#include <array>
#include <limits>

namespace gloam::weather {
namespace {

constexpr double kNone = std::numeric_limits<double>::infinity();

// By Quantity. The limits are those of the Earth's air, wide enough for any real field (judgement); cover has
// 1 % of slack for packing, and a little for float rounding; humidity of -4.4 to 123 % is met in real files.
constexpr std::array<QuantityFacts, 18> kFacts{{
    {"cloud cover", "", -0.010001, 1.010001, 0.0, 1.0},
    {"relative humidity", "", -0.2, 3.0, 0.0, kNone},
    {"geopotential height", "m", -2.0e3, 100.0e3, -kNone, kNone},
    {"height of cloud", "m", -2.0e3, 30.0e3, -kNone, kNone},
    {"pressure", "Pa", 0.0, 120.0e3, 0.0, kNone},
    {"temperature", "K", 130.0, 350.0, -kNone, kNone},
    {"dew point", "K", 100.0, 330.0, -kNone, kNone},
    {"wind towards the east", "m/s", -200.0, 200.0, -kNone, kNone},
    {"wind towards the north", "m/s", -200.0, 200.0, -kNone, kNone},
    {"gust", "m/s", -1.0, 200.0, 0.0, kNone},
    {"visibility", "m", -1.0, 1.0e6, 0.0, kNone},
    {"precipitation", "kg/m2", -1.0, 1.0e4, 0.0, kNone},
    {"precipitation rate", "kg/m2/s", -1.0e-3, 1.0, 0.0, kNone},
    {"CAPE", "J/kg", -100.0, 2.0e4, 0.0, kNone},
    {"probability of thunder", "", -0.010001, 1.010001, 0.0, 1.0},
    {"aerosol depth", "", -0.01, 100.0, 0.0, kNone},
    {"aerosol extinction", "1/m", -1.0e-6, 1.0, 0.0, kNone},
    {"ozone column", "DU", 20.0, 1.0e3, -kNone, kNone},
}};

}  // namespace

const QuantityFacts& facts_of(Quantity quantity) {
    return kFacts[static_cast<std::size_t>(quantity)];
}

std::string_view name_of(Quantity quantity) {
    return facts_of(quantity).name;
}

std::string impossible_value(Quantity quantity, double value) {
    const QuantityFacts& facts = facts_of(quantity);
    return facts.unit.empty() ? fmt::format("a {} of {:.4g} % is impossible", facts.name, 100.0 * value)
                              : fmt::format("a {} of {:.6g} {} is impossible", facts.name, value, facts.unit);
}

}  // namespace gloam::weather
