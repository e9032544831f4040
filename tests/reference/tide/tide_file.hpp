#pragma once

#include <fmt/format.h>

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include "base/text_table.hpp"
#include "tide/harmonics.hpp"

namespace gloam::test {

/// A file of data/tides, open for reading.
inline std::ifstream open_tide_file(std::string_view name) {
    std::ifstream file(fmt::format("{}/data/tides/{}", GLOAM_SOURCE_DIR, name));
    if (!file) {
        throw std::runtime_error(fmt::format("cannot open {}", name));
    }
    return file;
}

/// A comma-separated table of data/tides.
inline TextTable read_tide_table(std::string_view name) {
    std::ostringstream content;
    content << open_tide_file(name).rdbuf();
    return parse_text_table(content.str(), ',', name).value();
}

/// The harmonic constants of a port, about its mean water.
inline tide::HarmonicPort read_harmonic_port(const std::string& port) {
    const TextTable table = read_tide_table(port + ".csv");
    const auto amplitudes_m = table.numbers("amplitude_m").value();
    const auto lags_deg = table.numbers("phase_lag_deg").value();
    tide::HarmonicPort read{port, "MSL", CivilDate{}, 0.0, {}};
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        read.constituents.push_back(
            {tide::wave_named(table.rows[i][table.column("constituent").value()]).value(), amplitudes_m[i],
             Angle::degrees(lags_deg[i])});
    }
    return read;
}

}  // namespace gloam::test
