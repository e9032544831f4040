// What reading a forecast costs beside its bare decoder: for each family of files the time of read_grib
// (columns in milliseconds), of ecCodes unpacking the same messages and of its opening them without
// unpacking, turn by turn in one run so that other load on the machine meets all alike. Only messages that
// are used count.
//
//     bench_read_forecast [folder of forecast files] [options of google-benchmark]
#include <benchmark/benchmark.h>
#include <eccodes.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <set>

#include "weather/forecast.hpp"
#include "weather/grib/frames.hpp"

namespace gloam::weather {
namespace {

struct Family {
    const char* name;
    const char* file;
};

constexpr std::array kFamilies{
    Family{"gfs_1deg_complex", "gfs-global-1deg-2025012900-f006-tcdc-profile.grib2"},
    Family{"gfs_2p5deg_complex", "gfs-global-2p5deg-2011100800-f072.grib2"},
    Family{"gefs_aerosol_complex", "gefs-aerosol-africa-0p25deg-2024030900-f000.grib2"},
    Family{"gfs_rh_jpeg2000", "gfs-conus-80km-2007012400-f012-rh-jpeg2000.grib2"},
    Family{"ifs_tcc_ccsds", "ifs-global-0p25deg-2026031000-f000-tcc.grib2"},
    Family{"ifs_rh_ccsds", "ifs-global-0p4deg-2024010100-f000-rh.grib2"},
    Family{"arome_tcc_ccsds", "arome-weurope-0p025deg-2026041321-f001-tcc.grib2"},
    Family{"wrf_lambert_grib1", "wrf-conus-40km-2005080700-f012-rh-profile.grib1"},
    Family{"cfs_gaussian_grib1", "cfs-global-t62-2006033100-f024-cloud-subset.grib1"},
    Family{"ncv_visibility_png", "ncv-conus-5km-200711210135-visibility.grib2"},
    Family{"ncv_ceiling_png", "ncv-conus-5km-200711210135-ceiling.grib2"},
};

using Bytes = std::vector<std::byte>;

Bytes bytes_of(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    Bytes bytes(std::filesystem::file_size(file));
    stream.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    return bytes;
}

/// The messages of a file that become fields, one after the other.
Bytes used_messages(const Bytes& file) {
    std::set<int> used;
    const Forecast forecast = read_grib(file, "bench").value();
    for (const Field& field : forecast.fields) {
        used.insert(field.origin.message);
    }
    Bytes bytes;
    const GribFrames messages = find_frames(file, "bench").value();
    for (const GribFrame& frame : messages.frames) {
        if (used.contains(frame.origin.message)) {
            bytes.insert(bytes.end(), frame.octets.begin(), frame.octets.end());
        }
    }
    return bytes;
}

void decode_bare(const GribFrames& messages, bool values_too) {
    for (const GribFrame& frame : messages.frames) {
        codes_handle* handle =
            codes_handle_new_from_message(nullptr, frame.octets.data(), frame.octets.size());
        std::size_t size = 0;
        codes_get_size(handle, "values", &size);
        if (values_too) {
            std::vector<double> values(size);
            codes_get_double_array(handle, "values", values.data(), &size);
            benchmark::DoNotOptimize(values.data());
        }
        codes_handle_delete(handle);
    }
}

/// Milliseconds that `work` took, turn by turn.
class Stopwatch {
  public:
    template <class Work>
    void time(const Work& work) {
        const auto begin = std::chrono::steady_clock::now();
        work();
        turns_ms_.push_back(
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count());
    }

    double median_ms() {
        const auto middle = turns_ms_.begin() + static_cast<std::ptrdiff_t>(turns_ms_.size() / 2);
        std::ranges::nth_element(turns_ms_, middle);
        return *middle;
    }

  private:
    std::vector<double> turns_ms_;
};

void read_beside_bare_decoder(benchmark::State& state, const Bytes& bytes) {
    const GribFrames messages = find_frames(bytes, "bench").value();
    Stopwatch ours;
    Stopwatch bare;
    Stopwatch bare_open;
    for ([[maybe_unused]] auto turn : state) {
        ours.time([&] { benchmark::DoNotOptimize(read_grib(bytes, "bench")); });
        bare.time([&] { decode_bare(messages, true); });
        bare_open.time([&] { decode_bare(messages, false); });
    }
    state.counters["messages"] = static_cast<double>(messages.frames.size());
    state.counters["ours_ms"] = ours.median_ms();
    state.counters["bare_ms"] = bare.median_ms();
    state.counters["open_ms"] = bare_open.median_ms();
    state.counters["ours/bare"] = ours.median_ms() / bare.median_ms();
}

void register_family(const std::filesystem::path& folder, const Family& family) {
    if (!std::filesystem::exists(folder / family.file)) {
        std::cout << family.name << ": " << family.file << " is not in the folder\n";
        return;
    }
    const Bytes bytes = used_messages(bytes_of(folder / family.file));
    if (bytes.empty()) {
        std::cout << family.name << ": no message of it is used\n";
        return;
    }
    benchmark::RegisterBenchmark(family.name, [bytes](benchmark::State& state) {
        read_beside_bare_decoder(state, bytes);
    })->Unit(benchmark::kMillisecond);
}

}  // namespace
}  // namespace gloam::weather

int main(int count, char** words) {
    benchmark::Initialize(&count, words);
    const std::filesystem::path folder = count > 1 ? words[1] : GLOAM_SOURCE_DIR "/data/weather";
    for (const auto& family : gloam::weather::kFamilies) {
        gloam::weather::register_family(folder, family);
    }
    benchmark::ConsoleReporter table(benchmark::ConsoleReporter::OO_Tabular);
    benchmark::RunSpecifiedBenchmarks(&table);
}
