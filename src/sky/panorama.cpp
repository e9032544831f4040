#include "sky/panorama.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "air/standard_atmosphere.hpp"
#include "sky/cloud_light.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;
/// Rays start this far outside a layer, so that it does not block its own light.
constexpr double kOutside_m = 10.0;
/// Cloud whose cover is below this is not drawn.
constexpr double kLeastCover = 1e-3;
/// A layer that the viewer stands in begins this far above the eye.
constexpr double kInCloud_m = 30.0;

double zenith_of(const SunState& sun) {
    return kPi / 2.0 - sun.elevation.radians();
}

/// Light of one step of a view ray, as tristimulus values.
struct StepColour {
    Xyz single;
    Xyz diffuse;
    double apparent_zenith_rad = 0.0;
};

/// What a cloud element would show in a direction, per unit of everything that cloud cover decides.
struct Element {
    std::size_t layer = 0;
    double path_m = 0.0;
    double ground_m = 0.0;
    CloudView view;
    double behind = 0.0;           ///< transmission of the layer along the view
    double base_zenith_rad = 0.0;  ///< apparent, of the sun
    double middle_zenith_rad = 0.0;
    double top_zenith_rad = 0.0;
    Xyz base_beam;  ///< (beam irradiance facing the sun) / pi at the base, through the air to the viewer
    Xyz middle_beam;
    Xyz top_beam;
    Xyz diffuse;  ///< unlit cloud
};

/// Light of the air on the way to some place.
struct AirSum {
    Xyz single;
    Xyz diffuse;  ///< as if no cloud dimmed it
};

Xyz to_xyz(const Bands& bands, const FloatSpectrum& values) {
    Spectrum spectrum;
    std::copy(std::begin(values), std::end(values), spectrum.begin());
    return bands.xyz(spectrum);
}

}  // namespace

PanoramaGrid PanoramaGrid::standard() {
    PanoramaGrid grid;
    for (const double elevation_deg : {2.5, 6.0, 10.0, 15.0, 21.0, 28.0, 37.0, 48.0}) {
        grid.elevations.push_back(Angle::degrees(elevation_deg));
    }
    for (int i = -11; i <= 12; ++i) {
        grid.azimuths.push_back(Angle::degrees(15.0 * i));
    }
    return grid;
}

Xyz PanoramaCell::mean() const {
    return std::accumulate(
        patches.begin(), patches.begin() + static_cast<std::ptrdiff_t>(count), Xyz{},
        [](const Xyz& sum, const Patch& patch) { return sum + patch.light * patch.share; });
}

SkyPainter::SkyPainter(const Air& air, double viewer_height_m, PanoramaGrid grid, int steps)
    : air_(&air), viewer_height_m_(viewer_height_m), grid_(std::move(grid)) {
    for (const Angle elevation : grid_.elevations) {
        Row row{elevation,
                cast_ray(viewer_height_m, std::sin(elevation.radians()), steps, air.optics,
                         air.atmosphere.aerosol_scale_height_m),
                {}};
        for (const AirStep& step : row.ray.steps) {
            const double central_rad =
                std::atan2(step.middle_m * row.ray.sin_zenith,
                           row.ray.start_radius_m + step.middle_m * row.ray.cos_zenith);
            row.ground_m.push_back(central_rad * air::kEarthRadius_m);
        }
        rows_.push_back(std::move(row));
    }
}

/// Paints the cells of one elevation at one moment. Spectra depend on the angle to the sun alone; they are
/// worked out once for both sides of it (prepare), then cloud cover decides each side (paint).
class CellPainter {
  public:
    CellPainter(const SkyPainter& painter, const SkyPainter::Row& row, const CloudField& clouds,
                const SunState& sun, const std::vector<double>& left)
        : air_(*painter.air_),
          columns_(painter.air_->beam.columns()),
          viewer_height_m_(painter.viewer_height_m_),
          row_(row),
          clouds_(clouds),
          sun_(sun),
          left_(left) {}

    void prepare(double azimuth_rad) {
        const SunAlongRay along = sun_along(row_.ray, zenith_of(sun_), azimuth_rad);
        gather_light(air_, row_.ray, along, lights_);
        steps_.resize(lights_.size());
        for (std::size_t i = 0; i < lights_.size(); ++i) {
            const double height_m = row_.ray.steps[i].height_m;
            steps_[i] = {to_xyz(*air_.bands, lights_[i].single), to_xyz(*air_.bands, lights_[i].diffuse),
                         columns_.apparent_zenith_rad(height_m, lights_[i].sun_zenith_rad)};
        }
        elements_.clear();
        for (std::size_t k = 0; k < clouds_.layers().size(); ++k) {
            add_element(k, along);
        }
    }

    PanoramaCell paint(double azimuth_rad) const {
        std::vector<Xyz> single(steps_.size());
        for (std::size_t i = 0; i < steps_.size(); ++i) {
            single[i] = steps_[i].single * step_sun_free(i, azimuth_rad);
        }
        const auto air_until = [&](double path_m) {
            AirSum sum;
            for (std::size_t i = 0; i < steps_.size() && row_.ray.steps[i].from_m < path_m; ++i) {
                const AirStep& step = row_.ray.steps[i];
                const double share = std::min(1.0, (path_m - step.from_m) / (step.to_m - step.from_m));
                sum.single = sum.single + single[i] * share;
                sum.diffuse = sum.diffuse + steps_[i].diffuse * share;
            }
            return sum;
        };
        // Diffuse light of the air is dimmed by the layers over it.
        std::vector<Xyz> air_before;
        AirSum reached;
        Xyz dimmed;
        for (const Element& element : elements_) {
            const AirSum here = air_until(element.path_m);
            dimmed = dimmed + (here.diffuse + reached.diffuse * -1.0) * left_[element.layer];
            air_before.push_back(here.single + dimmed);
            reached = here;
        }
        const AirSum end = air_until(row_.ray.length_m);
        const Xyz whole_air = end.single + dimmed + (end.diffuse + reached.diffuse * -1.0);
        PanoramaCell cell;
        double rest = 1.0;
        for (std::size_t e = 0; e < elements_.size(); ++e) {
            const Element& element = elements_[e];
            const CloudLayer& layer = clouds_.layers()[element.layer];
            const PathPoint at = point(element.ground_m, azimuth_rad, layer.base_m);
            const double cover = clouds_.cover(element.layer, at.along_m, at.aside_m);
            if (cover < kLeastCover) {
                continue;
            }
            const double closed = closed_share(layer, cover);
            const Xyz around =
                air_before[e] + (whole_air + air_before[e] * -1.0) * element.behind + element.diffuse;
            const double lit_share =
                std::abs(azimuth_rad) < kPi / 3.0 ? layer.optics.lit_share_near : layer.optics.lit_share_far;
            const Xyz lit =
                beam_light(element, layer, at, cover, closed) * (1.0 / (std::max(closed, 0.15) * lit_share));
            cell.add({rest * closed * lit_share, around + lit, element.layer, true});
            cell.add({rest * closed * (1.0 - lit_share), around, element.layer, false});
            rest *= 1.0 - closed;
        }
        cell.add({rest, whole_air});
        return cell;
    }

  private:
    static PathPoint point(double ground_m, double azimuth_rad, double height_m) {
        return {ground_m * std::cos(azimuth_rad), ground_m * std::sin(azimuth_rad), height_m};
    }

    double step_sun_free(std::size_t i, double azimuth_rad) const {
        return clouds_.sun_free(point(row_.ground_m[i], azimuth_rad, row_.ray.steps[i].height_m),
                                steps_[i].apparent_zenith_rad);
    }

    /// Share of the direction that the layer closes: gaps close in perspective.
    double closed_share(const CloudLayer& layer, double cover) const {
        const double slant =
            (layer.top_m - layer.base_m) / (layer.optics.view_cell_m * std::tan(row_.elevation.radians()));
        return 1.0 - std::pow(1.0 - cover, std::max(1.0, slant));
    }

    void add_element(std::size_t k, const SunAlongRay& along) {
        const CloudLayer& layer = clouds_.layers()[k];
        if (layer.top_m <= viewer_height_m_ + kInCloud_m) {
            return;  // the viewer stands above it
        }
        const double base_m = std::max(layer.base_m, viewer_height_m_ + kInCloud_m);
        const double middle_m = 0.5 * (base_m + layer.top_m);
        const double radius_m = air::kEarthRadius_m + base_m;
        Element element;
        element.layer = k;
        element.path_m = path_to_radius_m(row_.ray.start_radius_m, row_.ray.cos_zenith, radius_m, true);
        element.ground_m =
            air::kEarthRadius_m * std::atan2(element.path_m * row_.ray.sin_zenith,
                                             row_.ray.start_radius_m + element.path_m * row_.ray.cos_zenith);
        element.view = {along.cosine,
                        (row_.ray.start_radius_m * row_.ray.cos_zenith + element.path_m) / radius_m};
        element.behind = std::exp(-layer.optics.optical_depth / element.view.mu);
        const double zenith_rad = along.zenith_rad(element.path_m, radius_m);
        element.base_zenith_rad = columns_.apparent_zenith_rad(base_m, zenith_rad);
        element.middle_zenith_rad = columns_.apparent_zenith_rad(middle_m, zenith_rad);
        element.top_zenith_rad = columns_.apparent_zenith_rad(layer.top_m, zenith_rad);
        FloatSpectrum air_between;
        row_.ray.transmission_at(element.path_m, air_between);
        element.base_beam = beam_through(base_m, zenith_rad, air_between);
        element.middle_beam = beam_through(middle_m, zenith_rad, air_between);
        element.top_beam = beam_through(layer.top_m, zenith_rad, air_between);
        element.diffuse = diffuse_through(layer.optics, element, base_m, zenith_rad, air_between);
        elements_.push_back(element);
    }

    Xyz beam_through(double height_m, double zenith_rad, const FloatSpectrum& air_between) const {
        Spectrum light = air_.beam.transmission(height_m, zenith_rad);
        for (std::size_t b = 0; b < kBands; ++b) {
            light[b] *= air_.bands->sun_w_m2_nm[b] / kPi * static_cast<double>(air_between[b]);
        }
        return air_.bands->xyz(light);
    }

    /// Diffuse light that the cloud passes down and returns up, less what is seen through it unscattered.
    Xyz diffuse_through(const CloudOptics& optics, const Element& element, double height_m, double zenith_rad,
                        const FloatSpectrum& air_between) const {
        const double albedo = optics.diffuse_albedo();
        const double passed = std::max(0.0, 1.0 - albedo - element.behind);
        const Spectrum down = air_.diffuse.at(DiffuseField::Kind::kDown, height_m, zenith_rad);
        Spectrum light = air_.diffuse.at(DiffuseField::Kind::kUp, height_m, zenith_rad);
        for (std::size_t b = 0; b < kBands; ++b) {
            light[b] =
                (left_[element.layer + 1] * passed * down[b] + left_[element.layer] * albedo * light[b]) /
                kPi * static_cast<double>(air_between[b]);
        }
        return air_.bands->xyz(light);
    }

    /// Beam light of the layer averaged over all sky in the direction.
    Xyz beam_light(const Element& element, const CloudLayer& layer, const PathPoint& at, double cover,
                   double closed) const {
        const auto free_from = [&](double height_m, double apparent_zenith_rad) {
            return clouds_.sun_free({at.along_m, at.aside_m, height_m}, apparent_zenith_rad);
        };
        const double under =
            -std::cos(element.base_zenith_rad);  // mu0: sine of the sun's depression at the base
        Xyz light;
        if (under > 0.0) {
            light =
                element.base_beam * (under * free_from(layer.base_m - kOutside_m, element.base_zenith_rad) *
                                     lit_from_below(layer.optics, element.view));
        } else {
            light = element.top_beam * (std::cos(element.top_zenith_rad) *
                                        free_from(layer.top_m + kOutside_m, element.top_zenith_rad) *
                                        lit_from_above(layer.optics, element.view, 1.0 - closed));
        }
        const double fronts = front_area(layer, cover) * (1.0 - share_counted(element, layer, at, cover)) *
                              free_from(0.5 * (layer.base_m + layer.top_m), element.middle_zenith_rad) *
                              lit_fronts(layer.optics, element.view);
        return light + element.middle_beam * fronts;
    }

    /// Share of the light on fronts that came in through the layer's base or top, where it is counted
    /// already, rather than by the open side of the field: as far as cloud at the place of entry is as dense
    /// as here.
    double share_counted(const Element& element, const CloudLayer& layer, const PathPoint& at,
                         double cover) const {
        const SunRay ray(layer.base_m, element.base_zenith_rad);
        const SunEntry entry =
            sun_entry(layer.top_m - layer.base_m, ray.sin_depression, ray.effective_radius_m);
        const auto counted = [&](double ahead_m) {
            return std::min(1.0, clouds_.cover(element.layer, at.along_m + ahead_m, at.aside_m) / cover);
        };
        return entry.by_base * counted(entry.base_m) + (1.0 - entry.by_base) * counted(entry.top_m);
    }

    const Air& air_;
    const ColumnTable& columns_;
    double viewer_height_m_;
    const SkyPainter::Row& row_;
    const CloudField& clouds_;
    const SunState& sun_;
    const std::vector<double>& left_;  ///< diffuse_left() of the clouds
    std::vector<StepLight> lights_;
    std::vector<StepColour> steps_;
    std::vector<Element> elements_;
};

Panorama SkyPainter::paint(const CloudField& clouds, const SunState& sun) const {
    Panorama panorama{grid_, sun, std::vector<PanoramaCell>(rows_.size() * grid_.azimuths.size())};
    const std::vector<double> left = diffuse_left(clouds.layers(), air_->atmosphere.ground_albedo);
    std::vector<std::size_t> order(grid_.azimuths.size());
    std::iota(order.begin(), order.end(), 0);
    const auto side = [&](std::size_t i) { return std::abs(grid_.azimuths[i].radians()); };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return side(a) < side(b); });
    for (std::size_t r = 0; r < rows_.size(); ++r) {
        CellPainter cells(*this, rows_[r], clouds, sun, left);
        double prepared_rad = -1.0;
        for (const std::size_t i : order) {
            if (std::abs(side(i) - prepared_rad) > 1e-12) {
                prepared_rad = side(i);
                cells.prepare(prepared_rad);
            }
            PanoramaCell cell = cells.paint(grid_.azimuths[i].radians());
            for (Patch& patch : cell.patches) {
                patch.light = patch.light * (1.0 / (sun.distance_au * sun.distance_au));
            }
            panorama.cells[r * grid_.azimuths.size() + i] = cell;
        }
    }
    return panorama;
}

}  // namespace gloam::sky
