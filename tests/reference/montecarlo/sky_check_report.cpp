#include "reference/montecarlo/sky_check_report.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "reference/sky/handbook.hpp"

namespace gloam::montecarlo {
namespace {

std::string distance_cells(const Distance& d) {
    return fmt::format("{:.1f} | {:.1f} ({}) | {:.4f} | {:.3f} ({}) |\n", d.median_percent, d.worst_percent,
                       d.worst_where, d.median_colour, d.worst_colour, d.worst_colour_where);
}

double noise_percent(const Light& light) {
    return 100.0 * light.amount.error / light.amount.value;
}

}  // namespace

std::string summary_table(const std::vector<Compared>& skies) {
    std::string table =
        "| AOD | luminance: median, % | largest, % | colour: median | largest |\n| --- | --- | --- | --- | "
        "--- |\n";
    for (const Compared& sky : skies) {
        table += fmt::format("| {:.2f} | ", sky.aerosol_depth_550) +
                 distance_cells(distance(sky.monte_carlo, sky.fast));
    }
    return table;
}

std::string ratio_table(const Compared& sky) {
    std::string table = "| sun |";
    std::string rule = "| --- |";
    for (const Direction& direction : kDirections) {
        table += fmt::format(" {} |", direction.name);
        rule += " --- |";
    }
    table += " noise, % |\n" + rule + " --- |\n";
    for (std::size_t row = 0; row < kSuns_deg.size(); ++row) {
        table += fmt::format("| {:+g} |", kSuns_deg[row]);
        double noise = 0.0;
        for (std::size_t i = row * kDirections.size(); i < (row + 1) * kDirections.size(); ++i) {
            table += fmt::format(" {:.2f} |", sky.fast[i].amount.value / sky.monte_carlo[i].amount.value);
            noise = std::max(noise, noise_percent(sky.monte_carlo[i]));
        }
        table += fmt::format(" {:.1f} |\n", noise);
    }
    return table;
}

std::string sky_table(const Compared& sky) {
    std::string table =
        "| sun | direction | cd m-2 | noise, % | x | y | fast/MC | dx | dy |\n"
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
    for (std::size_t i = 0; i < sky.monte_carlo.size(); ++i) {
        const Light& a = sky.monte_carlo[i];
        const Light& b = sky.fast[i];
        table +=
            fmt::format("| {:+g} | {} | {:.3g} | {:.1f} | {:.3f} | {:.3f} | {:.2f} | {:+.3f} | {:+.3f} |\n",
                        a.sun_deg, a.where, a.amount.value, noise_percent(a), a.colour.x, a.colour.y,
                        b.amount.value / a.amount.value, b.colour.x - a.colour.x, b.colour.y - a.colour.y);
    }
    return table;
}

std::string simplified_table(const std::vector<Simplified>& all) {
    std::string table =
        "| light is scattered again | luminance: median, % | largest, % | colour: median | largest |\n"
        "| --- | --- | --- | --- | --- |\n";
    for (std::size_t i = 1; i < all.size(); ++i) {
        table += fmt::format("| {} | ", all[i].name) + distance_cells(distance(all[0].lights, all[i].lights));
    }
    return table;
}

std::string level_table(const Compared& level) {
    const test::ReferenceFile file("illuminance_sun_polynomial_coefficients.csv");
    std::string table =
        "| sun | MC, lx | noise, % | x | y | MC/handbook | fast/MC | dx | dy |\n"
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
    for (std::size_t i = 0; i < level.monte_carlo.size(); ++i) {
        const Light& a = level.monte_carlo[i];
        const Light& b = level.fast[i];
        table += fmt::format(
            "| {:+g} | {:.3g} | {:.1f} | {:.3f} | {:.3f} | {:.2f} | {:.3f} | {:+.3f} | {:+.3f} |\n",
            a.sun_deg, a.amount.value, noise_percent(a), a.colour.x, a.colour.y,
            a.amount.value / test::handbook_lx(file, a.sun_deg), b.amount.value / a.amount.value,
            b.colour.x - a.colour.x, b.colour.y - a.colour.y);
    }
    return table;
}

}  // namespace gloam::montecarlo
