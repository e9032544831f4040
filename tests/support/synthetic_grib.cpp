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

long get(const Handle& handle, const char* key) {
    long value = 0;
    check(codes_get_long(handle.get(), key, &value), key);
    return value;
}

void set_real(const Handle& handle, const char* key, double value) {
    check(codes_set_double(handle.get(), key, value), key);
}

void set_text(const Handle& handle, const char* key, const std::string& value) {
    std::size_t length = value.size();
    check(codes_set_string(handle.get(), key, value.c_str(), &length), key);
}

Handle sample(const char* name) {
    Handle handle(codes_grib_handle_new_from_samples(nullptr, name));
    if (!handle) {
        throw std::runtime_error("ecCodes has no sample to start from");
    }
    return handle;
}

double positive(double lon_deg) {
    return lon_deg < 0.0 ? lon_deg + 360.0 : lon_deg;
}

std::size_t cell_of(const SyntheticGrid& grid, int row, int column) {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(grid.columns) +
           static_cast<std::size_t>(column);
}

/// The cell that a file begins with: a corner.
std::size_t first_cell(const SyntheticGrid& grid) {
    return cell_of(grid, grid.northward ? grid.rows - 1 : 0, grid.westward ? grid.columns - 1 : 0);
}

/// First and last corner and increments.
void set_corners(const Handle& handle, const SyntheticGrid& grid, const std::vector<SyntheticPlace>& places) {
    const SyntheticPlace first = places[first_cell(grid)];
    const SyntheticPlace last = places[places.size() - 1 - first_cell(grid)];
    set_text(handle, "gridType", grid.gaussian_n > 0 ? "regular_gg" : "regular_ll");
    set(handle, "Ni", grid.columns);
    set(handle, "Nj", grid.rows);
    set_real(handle, "latitudeOfFirstGridPointInDegrees", first.lat_deg);
    set_real(handle, "latitudeOfLastGridPointInDegrees", last.lat_deg);
    set_real(handle, "longitudeOfFirstGridPointInDegrees", positive(first.lon_deg));
    set_real(handle, "longitudeOfLastGridPointInDegrees", positive(std::fmod(last.lon_deg, 360.0)));
    set_real(handle, "iDirectionIncrementInDegrees", grid.step_deg);
    if (grid.gaussian_n > 0) {
        set(handle, "N", grid.gaussian_n);
    } else {
        set_real(handle, "jDirectionIncrementInDegrees", grid.step_deg);
    }
}

void set_map(const Handle& handle, const SyntheticGrid& grid, const SyntheticMap& map,
             const SyntheticPlace& first) {
    set_text(handle, "gridType", map.polar ? "polar_stereographic" : "lambert");
    if (get(handle, "edition") == 2) {
        set(handle, "shapeOfTheEarth", map.earth);
        set_real(handle, "LaDInDegrees", map.parallel_1_deg);
    }
    set(handle, "Nx", grid.columns);
    set(handle, "Ny", grid.rows);
    set_real(handle, "latitudeOfFirstGridPointInDegrees", first.lat_deg);
    set_real(handle, "longitudeOfFirstGridPointInDegrees", positive(first.lon_deg));
    set_real(handle, map.polar ? "orientationOfTheGridInDegrees" : "LoVInDegrees",
             positive(map.meridian_deg));
    set_real(handle, "DxInMetres", map.step_m);
    set_real(handle, "DyInMetres", map.step_m);
    if (map.polar) {
        set(handle, "projectionCentreFlag", map.about_south ? 128 : 0);
    } else {
        set_real(handle, "Latin1InDegrees", map.parallel_1_deg);
        set_real(handle, "Latin2InDegrees", map.parallel_2_deg);
    }
}

void set_order(const Handle& handle, const SyntheticGrid& grid) {
    set(handle, "iScansNegatively", grid.westward ? 1 : 0);
    set(handle, "jScansPositively", grid.northward ? 1 : 0);
    set(handle, "jPointsAreConsecutive", grid.by_column ? 1 : 0);
    if (grid.back_and_forth) {  // edition 1 has no such flag
        set(handle, "alternativeRowScanning", 1);
    }
}

void set_grid(const Handle& handle, const SyntheticGrid& grid, const std::vector<SyntheticPlace>& places) {
    if (grid.map) {
        set_map(handle, grid, *grid.map, places[first_cell(grid)]);
    } else {
        set_corners(handle, grid, places);
    }
    set_order(handle, grid);
}

Bytes bytes_of(const Handle& handle) {
    const void* data = nullptr;
    std::size_t length = 0;
    check(codes_get_message(handle.get(), &data, &length), "message");
    const auto* first = static_cast<const std::byte*>(data);
    return {first, first + length};
}

/// ecCodes walks over a map from its lower left corner, line by line. (From the upper left version 2.28 walks
/// upward, too, whatever the message says.)
std::vector<SyntheticPlace> places_on_map(const SyntheticGrid& grid) {
    const Handle handle = sample("GRIB2");
    set_map(handle, grid, *grid.map, grid.map->lower_left);
    set_order(handle, {.northward = true});
    const std::vector<double> nothing(static_cast<std::size_t>(grid.rows * grid.columns));
    check(codes_set_double_array(handle.get(), "values", nothing.data(), nothing.size()), "values");
    const Bytes bytes = bytes_of(handle);
    const Handle whole(codes_handle_new_from_message_copy(nullptr, bytes.data(), bytes.size()));
    std::vector<double> lats(nothing);
    std::vector<double> lons(nothing);
    std::vector<double> values(nothing);
    check(codes_grib_get_data(whole.get(), lats.data(), lons.data(), values.data()), "places");
    std::vector<SyntheticPlace> places;
    for (int row = grid.rows - 1; row >= 0; --row) {
        for (int column = 0; column < grid.columns; ++column) {
            const std::size_t cell = cell_of(grid, row, column);
            places.push_back({lats[cell], lons[cell]});
        }
    }
    return places;
}

/// Latitudes of the rows of a grid that is not on a map.
std::vector<double> row_lats(const SyntheticGrid& grid) {
    std::vector<double> lats(static_cast<std::size_t>(2 * grid.gaussian_n));
    if (grid.gaussian_n > 0) {
        check(codes_get_gaussian_latitudes(grid.gaussian_n, lats.data()), "Gaussian latitudes");
        std::erase_if(lats, [&grid](double lat) { return lat > grid.north_deg; });
    }
    for (int row = 0; grid.gaussian_n == 0 && row < grid.rows; ++row) {
        lats.push_back(grid.north_deg - row * grid.step_deg);
    }
    return lats;
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
    set(handle, "discipline", about.discipline);
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
std::vector<double> values_of(const SyntheticGrid& grid, const std::vector<SyntheticPlace>& places,
                              const ValueAt& value, bool& any_missing) {
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
            const SyntheticPlace place = places[cell_of(grid, row, column)];
            const auto at = value(place.lat_deg, place.lon_deg);
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

}  // namespace

std::vector<SyntheticPlace> places_of(const SyntheticGrid& grid) {
    if (grid.map) {
        return places_on_map(grid);
    }
    const std::vector<double> lats = row_lats(grid);
    std::vector<SyntheticPlace> places;
    for (int row = 0; row < grid.rows; ++row) {
        for (int column = 0; column < grid.columns; ++column) {
            places.push_back(
                {lats.at(static_cast<std::size_t>(row)), grid.west_deg + column * grid.step_deg});
        }
    }
    return places;
}

Bytes message(const SyntheticMessage& about, const ValueAt& value) {
    const Handle handle = sample(about.edition == 1 ? "GRIB1" : "GRIB2");
    const std::vector<SyntheticPlace> places = places_of(about.grid);
    set_time(handle, about);
    set_grid(handle, about.grid, places);
    set_identity(handle, about);
    bool any_missing = false;
    const std::vector<double> values = values_of(about.grid, places, value, any_missing);
    set(handle, "bitmapPresent", any_missing ? 1 : 0);
    set_real(handle, "missingValue", kMissing);
    set_values(handle, about, values);
    return bytes_of(handle);
}

Bytes message_on_reduced_grid() {
    const Handle handle = sample("reduced_gg_pl_32_grib2");
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
