#include "support/synthetic_grib.hpp"

#include <eccodes.h>
#include <fmt/format.h>

#include <cmath>
#include <fstream>
#include <memory>
#include <stdexcept>

namespace gloam::synthetic {
namespace {

constexpr double kMissing = -1.0e100;

struct Release {
    void operator()(codes_handle* handle) const { codes_handle_delete(handle); }
};
using Handle = std::unique_ptr<codes_handle, Release>;

void check(int status, const char* key) {
    if (status != CODES_SUCCESS) {
        throw std::runtime_error(fmt::format("ecCodes: {}: {}", key, codes_get_error_message(status)));
    }
}

void set(const Handle& handle, const char* key, long value) {
    check(codes_set_long(handle.get(), key, value), key);
}

void set_real(const Handle& handle, const char* key, double value) {
    check(codes_set_double(handle.get(), key, value), key);
}

void set_text(const Handle& handle, const char* key, const std::string& value) {
    std::size_t length = value.size();
    check(codes_set_string(handle.get(), key, value.c_str(), &length), key);
}

double lat_of(const SyntheticGrid& grid, int row) {
    return grid.north_deg - row * grid.step_deg;
}
double lon_of(const SyntheticGrid& grid, int column) {
    return grid.west_deg + column * grid.step_deg;
}

double positive(double lon_deg) {
    return lon_deg < 0.0 ? lon_deg + 360.0 : lon_deg;
}

void set_grid(const Handle& handle, const SyntheticGrid& grid) {
    const int first_row = grid.northward ? grid.rows - 1 : 0;
    const int first_column = grid.westward ? grid.columns - 1 : 0;
    set_text(handle, "gridType", "regular_ll");
    set(handle, "Ni", grid.columns);
    set(handle, "Nj", grid.rows);
    set_real(handle, "latitudeOfFirstGridPointInDegrees", lat_of(grid, first_row));
    set_real(handle, "latitudeOfLastGridPointInDegrees", lat_of(grid, grid.rows - 1 - first_row));
    set_real(handle, "longitudeOfFirstGridPointInDegrees", positive(lon_of(grid, first_column)));
    set_real(handle, "longitudeOfLastGridPointInDegrees",
             positive(std::fmod(lon_of(grid, grid.columns - 1 - first_column), 360.0)));
    set_real(handle, "iDirectionIncrementInDegrees", grid.step_deg);
    set_real(handle, "jDirectionIncrementInDegrees", grid.step_deg);
    set(handle, "iScansNegatively", grid.westward ? 1 : 0);
    set(handle, "jScansPositively", grid.northward ? 1 : 0);
    set(handle, "jPointsAreConsecutive", grid.by_column ? 1 : 0);
    if (grid.back_and_forth) {  // edition 1 has no such flag
        set(handle, "alternativeRowScanning", 1);
    }
}

void set_time(const Handle& handle, const SyntheticMessage& about) {
    const auto day = std::chrono::floor<std::chrono::days>(about.run_time);
    const std::chrono::year_month_day date(day);
    const long minutes = (about.run_time - day) / std::chrono::minutes(1);
    set(handle, "dataDate",
        static_cast<int>(date.year()) * 10000L + static_cast<unsigned>(date.month()) * 100L +
            static_cast<unsigned>(date.day()));
    set(handle, "dataTime", minutes / 60 * 100 + minutes % 60);
    if (about.edition == 1) {
        set(handle, "unitOfTimeRange", about.to.count() % 60 == 0 ? 1 : 0);
        set(handle, "P1", about.to.count() % 60 == 0 ? about.to.count() / 60 : about.to.count());
        return;
    }
    const bool average = about.from < about.to;
    set(handle, "productDefinitionTemplateNumber",
        (average ? 8 : 0) + (about.member ? (average ? 3 : 1) : 0));
    set_text(handle, "stepUnits", "m");
    if (average) {
        set_text(handle, "stepType", "avg");
        set_text(handle, "stepRange", fmt::format("{}-{}", about.from.count(), about.to.count()));
    } else {
        set(handle, "indicatorOfUnitOfTimeRange", 0);
        set(handle, "forecastTime", about.to.count());
    }
}

void set_identity(const Handle& handle, const SyntheticMessage& about) {
    set(handle, "centre", about.centre);
    set(handle, "generatingProcessIdentifier", about.process);
    if (about.edition == 1) {
        set(handle, "table2Version", about.table);
        set(handle, "indicatorOfParameter", about.number);
        set(handle, "indicatorOfTypeOfLevel", about.level_type);
        set(handle, "level",
            std::lround(about.level_type == 100 ? about.pressure_pa / 100.0 : about.level_value));
        return;
    }
    if (about.member) {
        set(handle, "perturbationNumber", *about.member);
        set(handle, "numberOfForecastsInEnsemble", 30);
    }
    set(handle, "discipline", 0);
    set(handle, "parameterCategory", about.category);
    set(handle, "parameterNumber", about.number);
    set(handle, "typeOfFirstFixedSurface", about.level_type);
    const double scale = std::pow(10.0, static_cast<double>(about.level_scale));
    set(handle, "typeOfSecondFixedSurface",
        about.second_level_type);  // before any value, or ecCodes clears it
    set(handle, "scaleFactorOfFirstFixedSurface", about.level_scale);
    set(handle, "scaledValueOfFirstFixedSurface",
        std::lround((about.level_type == 100 ? about.pressure_pa : about.level_value) * scale));
    if (about.second_level_type == 100) {
        set(handle, "scaleFactorOfSecondFixedSurface", about.level_scale);
        set(handle, "scaledValueOfSecondFixedSurface", std::lround(about.second_pressure_pa * scale));
    }
}

/// Values in the order of the file: along lines, line by line.
std::vector<double> values_of(const SyntheticGrid& grid, const ValueAt& value, bool& any_missing) {
    std::vector<double> values;
    const int lines = grid.by_column ? grid.columns : grid.rows;
    const int length = grid.by_column ? grid.rows : grid.columns;
    for (int line = 0; line < lines; ++line) {
        for (int step = 0; step < length; ++step) {
            const int along = grid.back_and_forth && line % 2 == 1 ? length - 1 - step : step;
            const int i = grid.by_column ? line : along;
            const int j = grid.by_column ? along : line;
            const int column = grid.westward ? grid.columns - 1 - i : i;
            const int row = grid.northward ? grid.rows - 1 - j : j;
            const auto at = value(lat_of(grid, row), lon_of(grid, column));
            any_missing |= !at;
            values.push_back(at.value_or(kMissing));
        }
    }
    return values;
}

/// Complex packing has to grow out of values that are there already, the others want to know their packing
/// first.
void set_values(const Handle& handle, const SyntheticMessage& about, const std::vector<double>& values) {
    const bool complex = about.packing.starts_with("grid_complex");
    const auto put = [&] {
        check(codes_set_double_array(handle.get(), "values", values.data(), values.size()), "values");
    };
    if (complex) {
        set(handle, "bitsPerValue", about.bits);
        put();
    }
    set_text(handle, "packingType", about.packing);
    if (!complex && about.packing != "grid_ieee") {
        set(handle, "bitsPerValue", about.bits);
    }
    if (!complex) {
        put();
    }
}

Bytes bytes_of(const Handle& handle) {
    const void* data = nullptr;
    std::size_t length = 0;
    check(codes_get_message(handle.get(), &data, &length), "message");
    const auto* first = static_cast<const std::byte*>(data);
    return {first, first + length};
}

}  // namespace

Bytes message(const SyntheticMessage& about, const ValueAt& value) {
    const Handle handle(codes_grib_handle_new_from_samples(nullptr, about.edition == 1 ? "GRIB1" : "GRIB2"));
    if (!handle) {
        throw std::runtime_error("ecCodes has no sample to start from");
    }
    set_time(handle, about);
    set_grid(handle, about.grid);
    set_identity(handle, about);
    bool any_missing = false;
    const std::vector<double> values = values_of(about.grid, value, any_missing);
    set(handle, "bitmapPresent", any_missing ? 1 : 0);
    set_real(handle, "missingValue", kMissing);
    set_values(handle, about, values);
    return bytes_of(handle);
}

Bytes message_on_reduced_grid() {
    const Handle handle(codes_grib_handle_new_from_samples(nullptr, "reduced_gg_pl_32_grib2"));
    if (!handle) {
        throw std::runtime_error("ecCodes has no sample to start from");
    }
    set_identity(handle, SyntheticMessage{});
    return bytes_of(handle);
}

Bytes cover_on_levels(const SyntheticRun& run, const Cover& cover) {
    Bytes file;
    for (const double level_hpa : run.levels_hpa) {
        const SyntheticMessage about{.run_time = run.run_time,
                                     .from = std::chrono::minutes(run.step_minutes),
                                     .to = std::chrono::minutes(run.step_minutes),
                                     .member = run.member,
                                     .pressure_pa = 100.0 * level_hpa,
                                     .grid = run.grid};
        const Bytes one = message(about, [&](double lat_deg, double lon_deg) {
            return std::optional(100.0 * cover(lat_deg, lon_deg, 100.0 * level_hpa));
        });
        file.insert(file.end(), one.begin(), one.end());
    }
    return file;
}

Bytes joined(std::initializer_list<Bytes> files) {
    Bytes all;
    for (const Bytes& file : files) {
        all.insert(all.end(), file.begin(), file.end());
    }
    return all;
}

void write_file(const std::filesystem::path& path, const Bytes& bytes) {
    std::ofstream stream(path, std::ios::binary);
    stream.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    if (!stream) {
        throw std::runtime_error("cannot write " + path.string());
    }
}

}  // namespace gloam::synthetic
