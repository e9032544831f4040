// The Monte Carlo solver against what is known without it: published atmosphere and ray tables, plain
// numerical integration of light scattered once, Chandrasekhar's slab, and the conservation of energy.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"
#include "reference/montecarlo/chandrasekhar.hpp"
#include "reference/montecarlo/estimate.hpp"
#include "sky/scene.hpp"

namespace gloam::montecarlo {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr std::size_t kGreen = 8;

/// Nothing is drawn towards the sun.
constexpr TracerSettings kEvenHanded{.lit_share = 0.0, .sunward_share = 0.0};

double radians(double deg) {
    return deg * kPi / 180.0;
}

double green(const sky::Spectrum& spectrum) {
    return spectrum[kGreen];
}

// --- air and rays ---

TEST(MonteCarloAir, HasTheDensityOfTheStandardAtmosphere) {
    const test::ReferenceFile file("us_standard_atmosphere_1976.csv");
    test::Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const double height_km = file.number(row, "z_km");
        if (height_km <= 86.0) {
            worst.add(100.0 * (1.225 * relative_air_density(height_km) / file.number(row, "rho_kg_m3") - 1.0),
                      std::to_string(height_km) + " km");
        }
    }
    worst.report("density of the Monte Carlo air", "%");
    EXPECT_LT(worst.value(), 0.1);
}

TEST(MonteCarloAir, IsTheSameOverHigherGround) {
    const Medium air = clear_air({}, test::tables().bands);
    const Medium raised = over_higher_ground(air, 2.0, 0.5);
    for (const double height_km : {2.0, 5.0, 22.0}) {
        for (std::size_t s = 0; s < kSpecies; ++s) {
            const double here = air.profiles.at(height_km)[s] * air.depth[s][kGreen];
            EXPECT_NEAR(raised.profiles.at(height_km - 2.0)[s] * raised.depth[s][kGreen], here, 1e-3 * here);
        }
        EXPECT_NEAR(raised.refractive_index(height_km - 2.0), air.refractive_index(height_km), 1e-9);
    }
}

TEST(MonteCarloSunRay, HasTheAirMassOfAnIndependentRayTrace) {
    const Medium air = clear_air({}, test::tables().bands);
    const test::ReferenceFile file("refraction_airmass_raytrace.csv");
    test::Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const double altitude_deg = file.number(row, "apparent_alt_deg");
        const SunRay ray = sun_ray(air, 0.0, radians(90.0 - altitude_deg));
        worst.add(100.0 * (ray.columns[kAir] / file.number(row, "airmass_raytrace") - 1.0),
                  std::to_string(altitude_deg) + " deg");
    }
    worst.report("air mass of Monte Carlo sun rays", "%");
    EXPECT_LT(worst.value(), 0.2);
}

TEST(MonteCarloSunRay, LosesTheSunAtCloudBasesWhenAnIndependentRayTraceDoes) {
    const Medium air = clear_air({}, test::tables().bands);
    const test::ReferenceFile file("cloud_base_sun_loss.csv");
    test::Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const double base_km = file.number(row, "cloud_base_m") / 1000.0;
        const SunRay ray = sun_ray(air, base_km, grazing_zenith_rad(air, base_km));
        worst.add(ray.true_zenith_rad * 180.0 / kPi - 90.0 -
                      file.number(row, "sun_centre_depression_deg_refracted"),
                  std::to_string(base_km) + " km");
    }
    worst.report("sun lost at cloud bases", "deg");
    EXPECT_LT(worst.value(), 0.02);
}

// --- phase functions ---

TEST(MonteCarloPhase, IsSampledWithItsOwnMoments) {
    constexpr int kCount = 20000;
    for (const Phase& phase :
         {Phase{Phase::Kind::kRayleigh, 0.0142}, Phase{}, Phase{Phase::Kind::kHenyeyGreenstein, 0.7}}) {
        std::array<double, 3> expected{};
        std::array<double, 3> sampled{};
        for (int i = 0; i < kCount; ++i) {
            const double u = (i + 0.5) / kCount;
            const double drawn = phase.sampled_cosine(u);
            const double cosine = 2.0 * u - 1.0;
            for (std::size_t k = 0; k < expected.size(); ++k) {
                const auto power = static_cast<double>(k);
                expected[k] += phase.at(cosine) * std::pow(cosine, power) / kCount;
                sampled[k] += std::pow(drawn, power) / kCount;
            }
        }
        for (std::size_t k = 0; k < expected.size(); ++k) {
            EXPECT_NEAR(sampled[k], expected[k], 1e-5) << phase.parameter << " moment " << k;
        }
    }
}

TEST(MonteCarloPhase, IsTheSumOfItsLegendreSeries) {
    const Phase aerosol{Phase::Kind::kHenyeyGreenstein, 0.7};
    for (const double cosine : {-1.0, -0.2, 0.6}) {
        EXPECT_NEAR(aerosol.to_degree(80, cosine), aerosol.at(cosine), 1e-8);
        EXPECT_EQ(aerosol.to_degree(0, cosine), 1.0);
    }
    EXPECT_NEAR(aerosol.to_degree(2, 0.5), 1.0 + 3.0 * 0.7 * 0.5 - 5.0 * 0.49 * 0.125, 1e-14);
}

TEST(MonteCarloPhase, TurnsByTheAngleThatWasDrawn) {
    for (const Vec3 axis : {Vec3{0.0, 0.0, 1.0}, Vec3{0.0, 0.6, -0.8}, Vec3{-1.0, 0.0, 0.0}}) {
        for (const double cosine : {-1.0, -0.3, 0.0, 0.9999}) {
            const Vec3 turned = turned_from(axis, cosine, 0.3);
            EXPECT_NEAR(dot(turned, axis), cosine, 1e-14);
            EXPECT_NEAR(astro::length(turned), 1.0, 1e-14);
        }
    }
}

// --- light scattered once ---

/// Transmission of the sunbeam by the ray itself, found by bisection; the sun is a point here.
double direct_transmission(const Medium& medium, double height_km, double true_zenith_rad) {
    double low = 0.0;
    double high = grazing_zenith_rad(medium, height_km);
    if (sun_ray(medium, height_km, high).true_zenith_rad <= true_zenith_rad) {
        return 0.0;
    }
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        (sun_ray(medium, height_km, middle).true_zenith_rad < true_zenith_rad ? low : high) = middle;
    }
    constexpr double kStep_rad = 1e-5;
    const SunRay ray = sun_ray(medium, height_km, low);
    const double thinning =
        kStep_rad / (ray.true_zenith_rad - sun_ray(medium, height_km, low - kStep_rad).true_zenith_rad);
    double depth = 0.0;
    for (std::size_t s = 0; s < kSpecies; ++s) {
        depth += medium.depth[s][kGreen] * ray.columns[s];
    }
    return std::exp(-depth) * thinning;
}

/// Sunlight scattered once towards a viewer on the ground: the midpoint rule over s = end (i/n)^2.
double once_scattered(const Medium& medium, const View& view) {
    constexpr int kSteps = 300;
    const double r0 = medium.radius_km;
    const double up = std::sin(radians(view.elevation_deg));
    const double e = radians(view.sun_elevation_deg);
    const double cosine =
        std::cos(radians(view.elevation_deg)) * std::cos(radians(view.azimuth_deg)) * std::cos(e) +
        up * std::sin(e);
    const double top = medium.top_radius_km();
    const double end = -r0 * up + std::sqrt(r0 * r0 * up * up + (top - r0) * (top + r0));
    double depth = 0.0;
    double light = 0.0;
    for (int i = 0; i < kSteps; ++i) {
        const double from = end * i * i / (kSteps * kSteps);
        const double to = end * (i + 1) * (i + 1) / (kSteps * kSteps);
        const double s = 0.5 * (from + to);
        const double r = std::sqrt(r0 * r0 + 2.0 * r0 * s * up + s * s);
        const PerSpecies density = medium.profiles.at(r - r0);
        double extinction = 0.0;
        double scattering = 0.0;
        for (std::size_t k = 0; k < kSpecies; ++k) {
            extinction += density[k] * medium.depth[k][kGreen];
            scattering += density[k] * medium.scattering[k][kGreen] * medium.phase[k].at(cosine);
        }
        const double step_depth = extinction * (to - from);
        const double zenith = std::acos((r0 * std::sin(e) + s * cosine) / r);
        light += scattering * (to - from) * std::exp(-depth - 0.5 * step_depth) *
                 direct_transmission(medium, r - r0, zenith);
        depth += step_depth;
    }
    return light * medium.sun[kGreen] / (4.0 * kPi);
}

TEST(MonteCarloSky, ScattersOnceAsPlainNumericalIntegrationSays) {
    Medium air = clear_air({}, test::tables().bands);
    air.sun_radius_deg = 0.0;
    air.ground_albedo = 0.0;
    const SunBeam beam(air);
    TracerSettings once;
    once.most_orders = 1;
    for (const View& view : {View{0.0, 5.0, 15.0, 0.0}, View{0.0, -1.0, 5.0, 0.0}, View{0.0, -3.0, 90.0, 0.0},
                             View{0.0, -2.0, 10.0, 180.0}}) {
        const Figure light = radiance(beam, once, view, {}).figure(green);
        EXPECT_NEAR(light.value / once_scattered(air, view), 1.0, 0.01)
            << view.sun_elevation_deg << " " << view.elevation_deg;
        EXPECT_LT(light.error / light.value, 0.003);
    }
}

// --- slabs ---

/// One species, even from the ground to 1 km, on a sphere so large that it is flat; the same in all bands.
Medium slab(double depth, double albedo, const Phase& phase, double ground_albedo) {
    const auto even = [](double) { return 1.0; };
    Medium medium{Profiles(1.0, {even, even, even, even})};
    medium.radius_km = 1e7;
    medium.refractivity = 0.0;
    medium.sun_radius_deg = 0.0;
    medium.ground_albedo = ground_albedo;
    medium.step_km = 0.1;
    medium.phase[kAir] = phase;
    medium.depth[kAir].fill(depth);
    medium.scattering[kAir].fill(albedo * depth);
    medium.sun.fill(1.0);
    return medium;
}

double elevation_deg(double mu) {
    return std::asin(mu) * 180.0 / kPi;
}

TEST(MonteCarloSlab, ScattersOnceByTheClosedForm) {
    constexpr double kDepth = 0.2;
    constexpr double kAlbedo = 0.8;
    constexpr double kMu = 0.5;
    constexpr double kSunMu = 0.3;
    const Medium medium = slab(kDepth, kAlbedo, {}, 0.0);
    const SunBeam beam(medium);
    TracerSettings once = kEvenHanded;
    once.most_orders = 1;
    const View view{0.0, elevation_deg(kSunMu), elevation_deg(kMu), 70.0};
    const double expected = kAlbedo / (4.0 * kPi) * kSunMu / (kSunMu - kMu) *
                            (std::exp(-kDepth / kSunMu) - std::exp(-kDepth / kMu));
    EXPECT_NEAR(radiance(beam, once, view, {}).figure(green).value / expected, 1.0, 0.002);
}

TEST(MonteCarloSlab, ItsComparisonKnowsChandrasekharsH) {
    // Chandrasekhar 1950, table XI, from memory.
    const HFunction h;
    EXPECT_NEAR(h.at(0.1), 1.2474, 0.001);
    EXPECT_NEAR(h.at(0.5), 2.0128, 0.001);
    EXPECT_NEAR(h.at(1.0), 2.9078, 0.001);
}

TEST(MonteCarloSlab, ReflectsAsChandrasekharSays) {
    constexpr double kDepth = 8.0;
    const HFunction h;
    const Medium medium = slab(kDepth, 1.0, {}, 0.0);
    const SunBeam beam(medium);
    for (const double sun_mu : {0.1, 0.5}) {
        for (const double mu : {0.2588, 0.5, 0.866}) {
            const View down{1.0, elevation_deg(sun_mu), -elevation_deg(mu), 0.0};
            const Figure light = radiance(beam, kEvenHanded, down, {.paths_per_batch = 256}).figure(green);
            const double expected = h.reflected(mu, sun_mu, kDepth) * sun_mu / kPi;
            EXPECT_NEAR(light.value / expected, 1.0, 0.015) << sun_mu << " " << mu;
            EXPECT_LT(light.error / expected, 0.01);
        }
    }
}

TEST(MonteCarloSlab, WhiteAirOverWhiteGroundReturnsWhatCameIn) {
    constexpr double kSunMu = 0.4;
    const Medium medium = slab(0.6, 1.0, {Phase::Kind::kHenyeyGreenstein, 0.5}, 1.0);
    const SunBeam beam(medium);
    constexpr int kMus = 8;
    constexpr int kAzimuths = 6;
    double flux = 0.0;
    for (int i = 0; i < kMus; ++i) {
        const double mu = (i + 0.5) / kMus;
        for (int j = 0; j < kAzimuths; ++j) {
            const View down{1.0, elevation_deg(kSunMu), -elevation_deg(mu), 180.0 * (j + 0.5) / kAzimuths};
            const Effort effort{
                .batches = 8, .paths_per_batch = 128, .seed = static_cast<std::uint64_t>(i * kAzimuths + j)};
            flux += radiance(beam, kEvenHanded, down, effort).figure(green).value * mu * 2.0 * kPi /
                    (kMus * kAzimuths);
        }
    }
    EXPECT_NEAR(flux / kSunMu, 1.0, 0.015);
}

// --- the estimate ---

TEST(MonteCarloEstimate, IsTheSameOnAnyNumberOfThreads) {
    const Medium air = clear_air({}, test::tables().bands);
    const SunBeam beam(air);
    const View view{0.0, -2.0, 10.0, 90.0};
    const Effort one{.batches = 4, .paths_per_batch = 8, .threads = 1};
    Effort three = one;
    three.threads = 3;
    EXPECT_EQ(radiance(beam, {}, view, one).batches, radiance(beam, {}, view, three).batches);
}

TEST(MonteCarloEstimate, DoesNotDependOnHowDirectionsAreDrawn) {
    const Medium air = clear_air({}, test::tables().bands);
    const SunBeam beam(air);
    const View view{0.0, 0.0, 90.0, 0.0};
    const Figure a = radiance(beam, {}, view, {}).figure(green);
    const Figure b = radiance(beam, kEvenHanded, view, {.seed = 2}).figure(green);
    EXPECT_NEAR(a.value, b.value, 3.0 * std::hypot(a.error, b.error));
    EXPECT_LT(std::hypot(a.error, b.error) / a.value, 0.01);
}

TEST(MonteCarloEstimate, HasTheIrradianceThatItsRadianceAddsUpTo) {
    const Medium air = clear_air({}, test::tables().bands);
    const SunBeam beam(air);
    constexpr double kSun_deg = -2.0;
    constexpr int kElevations = 12;
    constexpr int kAzimuths = 8;
    double sum = 0.0;
    for (int i = 0; i < kElevations; ++i) {
        // Half the elevations below 22 deg, for the light crowds there.
        const double u = (i + 0.5) / kElevations;
        const double elevation = 0.5 * kPi * u * u;
        const double ring = kPi * u / kElevations * std::sin(elevation) * std::cos(elevation);
        for (int j = 0; j < kAzimuths; ++j) {
            const View view{0.0, kSun_deg, elevation * 180.0 / kPi, 180.0 * (j + 0.5) / kAzimuths};
            const Effort effort{
                .batches = 4, .paths_per_batch = 64, .seed = static_cast<std::uint64_t>(i * kAzimuths + j)};
            sum += radiance(beam, {}, view, effort).figure(green).value * ring * 2.0 * kPi / kAzimuths;
        }
    }
    const Figure level = irradiance(beam, {}, {0.0, kSun_deg}, {}).figure(green);
    EXPECT_NEAR(level.value / sum, 1.0, 0.03);
    EXPECT_LT(level.error / level.value, 0.015);
}

}  // namespace
}  // namespace gloam::montecarlo
