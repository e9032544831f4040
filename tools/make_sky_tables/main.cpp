// Makes the tables of the clear sky that are embedded in the program.
//   make_sky_tables SPECTRA_FOLDER CACHE_FOLDER OUTPUT [SOURCE…]
// The result is kept in CACHE_FOLDER under a hash of everything it depends on: the spectra and the SOURCE
// files that compute it. A second build, of whatever type, takes it from there.
#include <fmt/format.h>

#include <cstdint>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <span>
#include <string>
#include <vector>

#include "sky/sky_tables.hpp"

namespace {

namespace fs = std::filesystem;
using gloam::Result;

std::string read_text(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) {
        throw std::runtime_error(fmt::format("cannot read {}", path.string()));
    }
    return {std::istreambuf_iterator<char>(file), {}};
}

/// FNV-1a, 64 bits.
std::uint64_t hash(std::uint64_t seed, const std::string& text) {
    for (const char c : text) {
        seed = (seed ^ static_cast<std::uint8_t>(c)) * 0x100000001b3ULL;
    }
    return seed;
}

struct Spectra {
    std::string solar, observer, ozone;
};

std::vector<std::byte> make_tables(const Spectra& spectra) {
    const auto bands = gloam::sky::make_bands(spectra.solar, spectra.observer, spectra.ozone);
    if (!bands) {
        throw std::runtime_error(gloam::to_text(bands.error()));
    }
    gloam::sky::SkyTables tables{*bands, gloam::sky::ColumnTable::trace(), {}};
    for (const auto& atmosphere : gloam::sky::stored_atmospheres()) {
        tables.nodes.push_back({atmosphere, solve_diffuse(tables.bands, tables.columns, atmosphere)});
        fmt::print("sky tables: {} of {} atmospheres\n", tables.nodes.size(),
                   gloam::sky::stored_atmospheres().size());
        std::fflush(stdout);
    }
    return pack(tables);
}

void write_whole(const fs::path& path, const std::vector<std::byte>& bytes) {
    const fs::path part = path.string() + ".part";
    std::ofstream file(part, std::ios::binary);
    file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    file.close();
    if (!file) {
        throw std::runtime_error(fmt::format("cannot write {}", part.string()));
    }
    fs::rename(part, path);
}

void run(std::span<char*> arguments) {
    if (arguments.size() < 4) {
        throw std::runtime_error("usage: make_sky_tables SPECTRA_FOLDER CACHE_FOLDER OUTPUT [SOURCE...]");
    }
    const fs::path folder = arguments[1];
    const Spectra spectra{read_text(folder / "solar_astm_g173_350_850.csv"),
                          read_text(folder / "cie_observers_1nm.csv"),
                          read_text(folder / "ozone_xsec_serdyuchenko233K_10nm.csv")};
    std::uint64_t key = 0xcbf29ce484222325ULL;
    for (const std::string& text : {spectra.solar, spectra.observer, spectra.ozone}) {
        key = hash(key, text);
    }
    for (const char* source : arguments.subspan(4)) {
        key = hash(key, read_text(source));
    }
    const fs::path kept = fs::path(arguments[2]) / fmt::format("{:016x}.sky", key);
    if (!fs::exists(kept)) {
        fs::create_directories(kept.parent_path());
        write_whole(kept, make_tables(spectra));
    }
    fs::copy_file(kept, arguments[3], fs::copy_options::overwrite_existing);
}

}  // namespace

int main(int count, char** arguments) {
    try {
        run({arguments, static_cast<std::size_t>(count)});
        return 0;
    } catch (const std::exception& error) {
        fmt::print(stderr, "make_sky_tables: {}\n", error.what());
        return 1;
    }
}
