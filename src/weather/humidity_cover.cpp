#include "weather/humidity_cover.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::weather {
namespace {

constexpr double kCriticalAloft = 0.7;
constexpr double kCriticalBelow = 0.9;
constexpr double kExponent = 4.0;
constexpr double kSeaLevelPressure_pa = 101325.0;

double cover_of(double humidity, double critical) {
    return std::max(0.0, 1.0 - std::sqrt(std::max(0.0, 1.0 - humidity) / (1.0 - critical)));
}

}  // namespace

double critical_humidity(double pressure_pa) {
    return kCriticalAloft + (kCriticalBelow - kCriticalAloft) *
                                std::exp(1.0 - std::pow(kSeaLevelPressure_pa / pressure_pa, kExponent));
}

double cover_from_humidity(double humidity, double pressure_pa) {
    return cover_of(humidity, critical_humidity(pressure_pa));
}

Field humidity_cover(const Field& humidity) {
    Field cover{static_cast<const FieldHeader&>(humidity), {}, humidity.present};
    cover.quantity = Quantity::kCloudCover;
    cover.values.resize(humidity.values.size());
    const double critical = critical_humidity(humidity.level.pressure_pa);
    std::ranges::transform(humidity.values, cover.values.begin(), [critical](float value) {
        return static_cast<float>(cover_of(static_cast<double>(value), critical));
    });
    for (std::size_t cell = 0; cell < cover.present.size(); ++cell) {
        cover.values[cell] = cover.present[cell] != 0 ? cover.values[cell] : 0.0F;
    }
    return cover;
}

}  // namespace gloam::weather
