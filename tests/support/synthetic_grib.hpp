#pragma once

#include <chrono>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "base/instant.hpp"

/// Synthetic forecasts: GRIB messages with values from a function of place and pressure, as bytes. No real
/// model made them, and every test that uses them says so by their name.
namespace gloam::synthetic {

using Bytes = std::vector<std::byte>;

/// A place on the Earth, degrees; longitude as the grid counts it.
struct SyntheticPlace {
    double lat_deg = 0.0;
    double lon_deg = 0.0;
};

/// A map that a synthetic grid is regular on.
struct SyntheticMap {
    bool polar = false;  ///< polar stereographic instead of Lambert
    SyntheticPlace lower_left = {35.0, -10.0};
    double step_m = 40.0e3;
    double meridian_deg = 0.0;     ///< from -180 to 360
    double parallel_1_deg = 50.0;  ///< of true scale; a polar map has no second
    double parallel_2_deg = 50.0;
    bool about_south = false;  ///< polar maps only
    long earth = 6;            ///< GRIB code table 3.2; edition 2 only
};

/// A grid by its north-western corner, and the way a file runs over it. Regular in latitude and longitude
/// unless it says otherwise.
struct SyntheticGrid {
    double north_deg = 60.0;
    double west_deg = -10.0;  ///< from -180 to 360: written to the file as 0 to 360
    double step_deg = 1.0;
    long gaussian_n = 0;  ///< if not 0, the rows are those of this Gaussian grid from `north_deg` down
    std::optional<SyntheticMap> map = std::nullopt;  ///< if given, it says where the corner is
    int rows = 31;
    int columns = 51;
    bool westward = false;
    bool northward = false;
    bool by_column = false;
    bool back_and_forth = false;
};

/// Value in the unit of the file at a place, degrees; absent: missing by bitmap.
using ValueAt = std::function<std::optional<double>(double lat_deg, double lon_deg)>;

/// Places of all cells of a grid, row by row from the top, left to right; on a map as ecCodes finds them.
std::vector<SyntheticPlace> places_of(const SyntheticGrid& grid);

/// Everything a single message says about itself. The default is what GFS writes for cover on a pressure
/// level.
struct SyntheticMessage {
    int edition = 2;
    long centre = 7;    ///< NCEP
    long process = 96;  ///< GFS
    Instant run_time = parse_rfc3339("2025-01-29T00:00:00Z").value();
    std::chrono::minutes from{360};  ///< after the run time; less than `to`: an average
    std::chrono::minutes to{360};
    std::optional<int> member = std::nullopt;  ///< of 30
    long discipline = 0;                       ///< edition 2
    long category = 6;
    long number = 1;  ///< edition 1: the parameter of its table
    long table = 2;   ///< edition 1 only
    long level_type = 100;
    double pressure_pa = 500.0e2;  ///< only for level type 100; whole hectopascals in edition 1
    long second_level_type = 255;  ///< edition 2: the other surface of a layer
    double second_pressure_pa = 0.0;
    double level_value = 0.0;  ///< for other level types than 100; whole in edition 1
    long level_scale = 0;      ///< edition 2: power of ten by which the values of levels are divided
    SyntheticGrid grid = {};
    std::string packing = "grid_simple";
    long bits = 16;
};

/// One message as bytes. Throws std::runtime_error where ecCodes refuses, for then the test itself is wrong.
Bytes message(const SyntheticMessage& about, const ValueAt& value);

/// A message of cover at 500 hPa on a reduced Gaussian grid, which is not regular in longitude.
Bytes message_on_reduced_grid();

/// Cloud cover as a fraction 0..1 at a place and pressure.
using Cover = std::function<double(double lat_deg, double lon_deg, double pressure_pa)>;

/// The levels of GFS that matter, hPa.
inline const std::vector<double> kUsualLevels_hpa{200, 250, 300, 350, 400, 450, 500, 550, 600, 650,
                                                  700, 750, 800, 850, 900, 925, 950, 975, 1000};

/// One step of a run, for one member.
struct SyntheticRun {
    Instant run_time = parse_rfc3339("2025-01-29T00:00:00Z").value();
    int step_minutes = 360;
    SyntheticGrid grid = {};
    std::vector<double> levels_hpa = kUsualLevels_hpa;
    std::optional<int> member = std::nullopt;
};

/// A file with cover on every level of the run, in percent as GFS writes it.
Bytes cover_on_levels(const SyntheticRun& run, const Cover& cover);

/// One file after the other.
Bytes joined(std::initializer_list<Bytes> files);

/// Writes a file for a program that takes paths.
void write_file(const std::filesystem::path& path, const Bytes& bytes);

}  // namespace gloam::synthetic
