// What skies cost: the slow path (a panorama painted from spectra) beside the fast one (mixed from palettes),
// each with colour strength read off it; how cost grows; and a whole call and a whole trip. Times vary with
// the machine: the ratios are measured side by side in one run, in processor time.
//
//     bench_sky [options of google-benchmark]
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include <ctime>
#include <filesystem>

#include "outlook/event_outlook.hpp"
#include "sky/embedded_tables.hpp"
#include "sky/random_sky.hpp"
#include "sky/sky_mixer.hpp"
#include "weather/forecast.hpp"

namespace gloam {
namespace {

const std::vector<std::filesystem::path> kFiles{
    GLOAM_SOURCE_DIR "/data/weather/gfs-global-1deg-2025012900-f006-tcdc-profile.grib2"};
constexpr int kMembers = 31;

double processor_s() {
    std::timespec time{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

template <class Work>
double seconds_of(const Work& work) {
    const double begin = processor_s();
    work();
    return processor_s() - begin;
}

/// The first layers of an ordinary sky of three.
std::vector<sky::CloudLayer> layers(std::size_t count) {
    std::vector<sky::CloudLayer> all{test::low_layer(0.2), test::middle_layer(0.4, 150.0),
                                     test::high_layer(0.8, 250.0)};
    all.resize(count, all.front());
    return all;
}

const sky::AirPalette& palette() {
    static const sky::AirPalette kPalette(test::default_air(), 0.0);
    return kPalette;
}

/// The strengths of all members at one moment, each by the painter.
double slow_moment(std::size_t layer_count, int members) {
    static const sky::SkyPainter kPainter(test::default_air(), 0.0, sky::PanoramaGrid::standard());
    double sum = 0.0;
    for (int i = 0; i < members; ++i) {
        sum +=
            colour_strength(kPainter.paint(sky::CloudField(layers(layer_count)), test::sun_at(-2.0))).value;
    }
    return sum;
}

/// The same mixed, the moment's own palette with it.
double fast_moment(std::size_t layer_count, int members, double sun_deg = -2.0) {
    const sky::SkyPalette sun(palette(), Angle::degrees(sun_deg));
    sky::MixedSky mixed;
    double sum = 0.0;
    for (int i = 0; i < members; ++i) {
        mix(sun, sky::CloudLines(layers(layer_count)), 1.0, mixed);
        sum += colour_strength(mixed).value;
    }
    return sum;
}

/// One member at one moment, amortised over 31.
void fast_beside_slow(benchmark::State& state) {
    const auto layer_count = static_cast<std::size_t>(state.range(0));
    double slow_s = 0.0;
    double fast_s = 0.0;
    for ([[maybe_unused]] auto turn : state) {
        slow_s += seconds_of([&] { benchmark::DoNotOptimize(slow_moment(layer_count, 2)); }) / 2.0;
        fast_s +=
            seconds_of([&] { benchmark::DoNotOptimize(fast_moment(layer_count, kMembers)); }) / kMembers;
    }
    const auto turns = static_cast<double>(state.iterations());
    state.counters["slow_ms"] = 1e3 * slow_s / turns;
    state.counters["fast_ms"] = 1e3 * fast_s / turns;
    state.counters["slow/fast"] = slow_s / fast_s;
}

/// The cost of twice as much work beside that of as much.
template <class Work>
void doubled(benchmark::State& state, const Work& work) {
    const auto count = static_cast<int>(state.range(0));
    double once_s = 0.0;
    double twice_s = 0.0;
    for ([[maybe_unused]] auto turn : state) {
        once_s += seconds_of([&] { work(count); });
        twice_s += seconds_of([&] { work(2 * count); });
    }
    state.counters["twice/once"] = twice_s / once_s;
}

void fast_members_doubled(benchmark::State& state) {
    doubled(state, [](int members) { benchmark::DoNotOptimize(fast_moment(3, members)); });
}

/// Every quarter degree from -6 on, eight members each.
void fast_instants_doubled(benchmark::State& state) {
    doubled(state, [](int instants) {
        for (int i = 0; i < instants; ++i) {
            benchmark::DoNotOptimize(fast_moment(3, 8, -6.0 + 0.25 * i));
        }
    });
}

void an_air(benchmark::State& state) {
    for ([[maybe_unused]] auto turn : state) {
        benchmark::DoNotOptimize(sky::Air(test::tables(), sky::Atmosphere{}));
    }
}

void palette_of_a_viewer(benchmark::State& state) {
    for ([[maybe_unused]] auto turn : state) {
        benchmark::DoNotOptimize(sky::AirPalette(test::default_air(), 0.0));
    }
}

void palette_of_a_moment(benchmark::State& state) {
    for ([[maybe_unused]] auto turn : state) {
        benchmark::DoNotOptimize(sky::SkyPalette(palette(), Angle::degrees(-2.0)));
    }
}

struct Dawn {
    weather::LayeredForecast layers;
    geo::Zone zone = geo::Zone::named("Europe/Rome").value();
    CivilDate date = parse_civil_date("2025-01-29").value();
    Instant run_time;

    outlook::EventRequest at(double lat, double lon, double height_m) const {
        const astro::Observer observer{{lat, lon}, HeightMsl{height_m}};
        return {observer, astro::half_day_of(observer, zone, date, astro::EventKind::kDawn).value(),
                run_time};
    }
};

Dawn read_dawn() {
    const auto forecast = weather::read_forecast(kFiles).value();
    Dawn dawn;
    dawn.layers = weather::layers_of(forecast).value();
    dawn.run_time = forecast.run_time;
    return dawn;
}

/// Tables, file, 31 members at every moment of the dawn on the Ionian coast, and the odds.
void fast_call(benchmark::State& state) {
    for ([[maybe_unused]] auto turn : state) {
        const auto tables = sky::unpack_sky_tables(sky::embedded_tables()).value();
        const Dawn dawn = read_dawn();
        benchmark::DoNotOptimize(
            look_out(tables, sample_event(dawn.layers, dawn.at(37.07, 15.29, 0.0)).value()));
    }
}

/// So many places with 14 events each, 31 members, every moment. The events of a place are looked at
/// together. Reading is apart, and what sampling takes of the processor's time is told. For want of a
/// forecast for a week the 14 events of a place are the same dawn.
void fast_trip(benchmark::State& state) {
    const auto places = static_cast<int>(state.range(0));
    const Dawn dawn = read_dawn();
    double sampling_s = 0.0;
    for ([[maybe_unused]] auto turn : state) {
        for (int place = 0; place < places; ++place) {
            const auto request = dawn.at(37.07 + 0.02 * place, 15.29 - 0.02 * place, 20.0 * place);
            std::vector<outlook::EventSample> samples;
            sampling_s += seconds_of([&] {
                for (int event = 0; event < 14; ++event) {
                    samples.push_back(sample_event(dawn.layers, request).value());
                }
            });
            benchmark::DoNotOptimize(look_out(test::tables(), samples));
        }
    }
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    state.counters["sampling_s"] = sampling_s;
    state.counters["peak_MB"] = static_cast<double>(usage.ru_maxrss) / 1024.0;
}

BENCHMARK(fast_beside_slow)->DenseRange(0, 3)->Unit(benchmark::kMillisecond)->Iterations(30);
BENCHMARK(fast_members_doubled)->Arg(8)->Arg(16)->Arg(32)->Unit(benchmark::kMillisecond)->Iterations(30);
BENCHMARK(fast_instants_doubled)->Arg(6)->Arg(12)->Arg(24)->Unit(benchmark::kMillisecond)->Iterations(10);
BENCHMARK(an_air)->Unit(benchmark::kMillisecond);
BENCHMARK(palette_of_a_viewer)->Unit(benchmark::kMillisecond);
BENCHMARK(palette_of_a_moment)->Unit(benchmark::kMicrosecond);
BENCHMARK(fast_call)->Unit(benchmark::kSecond)->MeasureProcessCPUTime()->UseRealTime()->Iterations(3);
BENCHMARK(fast_trip)
    ->Arg(1)
    ->Arg(2)
    ->Arg(12)
    ->Unit(benchmark::kSecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

}  // namespace
}  // namespace gloam
