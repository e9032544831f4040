// What reading a forecast costs beside its bare decoder: for each GRIB file of a folder the processor time of
// read_grib (ours_ms), of ecCodes unpacking the same messages (bare_ms) and of its opening them without
// unpacking (open_ms), turn by turn in one run so that other load on the machine meets all alike; medians.
// Only messages that are used count.
//
//     bench_read_forecast [folder of forecast files] [options of google-benchmark]
#include <benchmark/benchmark.h>
#include <eccodes.h>

#include <algorithm>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <set>

#include "weather/forecast.hpp"
#include "weather/grib/frames.hpp"

namespace gloam::weather {
namespace {

using Bytes = std::vector<std::byte>;

Bytes bytes_of(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    Bytes bytes(std::filesystem::file_size(file));
    stream.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    return bytes;
}

/// The messages of a file that become fields; none of a file that is refused.
std::vector<Bytes> used_messages(const Bytes& file) {
    std::vector<Bytes> messages;
    const auto forecast = read_grib(file, "bench");
    if (!forecast) {
        return messages;
    }
    std::set<int> used;
    for (const Field& field : forecast->fields) {
        used.insert(field.origin.message);
    }
    FrameReader reader(memory_source(file), "bench");
    while (const auto frame = reader.next().value()) {
        if (used.contains(frame->origin.message)) {
            const GribFrame whole = reader.whole(*frame).value();
            messages.emplace_back(whole.octets.begin(), whole.octets.end());
        }
    }
    return messages;
}

void decode_bare(const std::vector<Bytes>& messages, bool values_too) {
    for (const Bytes& message : messages) {
        codes_handle* handle = codes_handle_new_from_message(nullptr, message.data(), message.size());
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

/// Processor time that `work` took, turn by turn: another program's share of the machine does not count.
class Stopwatch {
  public:
    template <class Work>
    void time(const Work& work) {
        const std::clock_t begin = std::clock();
        work();
        turns_ms_.push_back(1e3 * static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC);
    }

    double median_ms() {
        const auto middle = turns_ms_.begin() + static_cast<std::ptrdiff_t>(turns_ms_.size() / 2);
        std::ranges::nth_element(turns_ms_, middle);
        return *middle;
    }

  private:
    std::vector<double> turns_ms_;
};

void read_beside_bare_decoder(benchmark::State& state, const std::vector<Bytes>& messages) {
    Bytes file;
    for (const Bytes& message : messages) {
        file.insert(file.end(), message.begin(), message.end());
    }
    Stopwatch ours;
    Stopwatch bare;
    Stopwatch bare_open;
    for ([[maybe_unused]] auto turn : state) {
        ours.time([&] { benchmark::DoNotOptimize(read_grib(file, "bench")); });
        bare.time([&] { decode_bare(messages, true); });
        bare_open.time([&] { decode_bare(messages, false); });
    }
    state.counters["messages"] = static_cast<double>(messages.size());
    state.counters["ours_ms"] = ours.median_ms();
    state.counters["bare_ms"] = bare.median_ms();
    state.counters["open_ms"] = bare_open.median_ms();
    state.counters["ours/bare"] = ours.median_ms() / bare.median_ms();
}

void register_file(const std::filesystem::path& file) {
    const std::vector<Bytes> messages = used_messages(bytes_of(file));
    if (messages.empty()) {
        std::cout << file.filename().string() << ": no message of it is used\n";
        return;
    }
    benchmark::RegisterBenchmark(file.stem().c_str(), [messages](benchmark::State& state) {
        read_beside_bare_decoder(state, messages);
    })->Unit(benchmark::kMillisecond);
}

/// In order of their names.
std::set<std::filesystem::path> grib_files(const std::filesystem::path& folder) {
    std::set<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.path().extension().string().starts_with(".grib")) {
            files.insert(entry.path());
        }
    }
    return files;
}

}  // namespace
}  // namespace gloam::weather

int main(int count, char** words) {
    benchmark::Initialize(&count, words);
    const std::filesystem::path folder = count > 1 ? words[1] : GLOAM_SOURCE_DIR "/data/weather";
    for (const std::filesystem::path& file : gloam::weather::grib_files(folder)) {
        gloam::weather::register_file(file);
    }
    benchmark::ConsoleReporter table(benchmark::ConsoleReporter::OO_Tabular);
    benchmark::RunSpecifiedBenchmarks(&table);
}
