// What a call costs, from one sky to the whole. Times vary with the machine; the counter `clear_skies` of an
// evaluation holds it against painting a clear sky in the same run.
#include <benchmark/benchmark.h>

#include <chrono>

#include "outlook/event_outlook.hpp"
#include "sky/colour_strength.hpp"
#include "sky/embedded_tables.hpp"
#include "sky/scene.hpp"
#include "weather/forecast.hpp"

namespace gloam {
namespace {

const std::vector<std::filesystem::path> kFiles{
    GLOAM_SOURCE_DIR "/data/weather/gfs-global-1deg-2025012900-f006-tcdc-profile.grib2"};

const sky::SkyPainter& painter() {
    static const sky::SkyPainter kPainter(test::default_air(), 0.0, sky::PanoramaGrid::standard());
    return kPainter;
}

sky::CloudField clear() {
    return sky::CloudField({});
}

sky::CloudField three_layers() {
    return sky::CloudField(
        {test::low_layer(0.2), test::middle_layer(0.4, 150.0), test::high_layer(0.8, 250.0)});
}

double seconds_to_paint_a_clear_sky() {
    constexpr int kTimes = 50;
    const sky::CloudField clouds = clear();
    const auto begin = std::chrono::steady_clock::now();
    for (int i = 0; i < kTimes; ++i) {
        benchmark::DoNotOptimize(painter().paint(clouds, test::sun_at(-2.0)));
    }
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count() / kTimes;
}

/// One member at one moment: its sky, and the strength read off it.
void evaluate(benchmark::State& state, const sky::CloudField& clouds) {
    const double clear_sky_s = seconds_to_paint_a_clear_sky();
    const auto begin = std::chrono::steady_clock::now();
    for ([[maybe_unused]] auto turn : state) {
        benchmark::DoNotOptimize(colour_strength(painter().paint(clouds, test::sun_at(-2.0))));
    }
    const double all_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    state.counters["clear_skies"] = all_s / static_cast<double>(state.iterations()) / clear_sky_s;
}

void evaluation_clear(benchmark::State& state) {
    evaluate(state, clear());
}
void evaluation_three_layers(benchmark::State& state) {
    evaluate(state, three_layers());
}

void read_and_layer_a_global_file(benchmark::State& state) {
    for ([[maybe_unused]] auto turn : state) {
        benchmark::DoNotOptimize(weather::read_forecast(kFiles).and_then(
            [](const weather::Forecast& forecast) { return weather::layers_of(forecast); }));
    }
}

/// Tables, file, 31 members at every moment of the dawn on the Ionian coast, and the odds.
void whole_call(benchmark::State& state) {
    for ([[maybe_unused]] auto turn : state) {
        const auto tables = sky::unpack_sky_tables(sky::embedded_tables()).value();
        const auto forecast = weather::read_forecast(kFiles).value();
        const auto layers = weather::layers_of(forecast).value();
        const astro::Observer observer{{37.07, 15.29}, HeightMsl{0.0}};
        const auto half_day =
            astro::half_day_of(observer, geo::Zone::named("Europe/Rome").value(),
                               parse_civil_date("2025-01-29").value(), astro::EventKind::kDawn)
                .value();
        benchmark::DoNotOptimize(outlook::look_out(tables, layers, {observer, half_day, forecast.run_time}));
    }
}

BENCHMARK(evaluation_clear)->Unit(benchmark::kMillisecond);
BENCHMARK(evaluation_three_layers)->Unit(benchmark::kMillisecond);
BENCHMARK(read_and_layer_a_global_file)->Unit(benchmark::kMillisecond);
BENCHMARK(whole_call)->Unit(benchmark::kSecond)->MeasureProcessCPUTime()->UseRealTime()->Iterations(2);

}  // namespace
}  // namespace gloam
