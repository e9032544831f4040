#include "weather/grib/identity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "weather/grib/aerosol.hpp"

namespace gloam::weather {
namespace {

constexpr long kNcep = 7;

// Edition 2, code table 4.0: products of a run or a member, at a time or over a span, and the optical
// properties of aerosol likewise. Others are means, spreads, probabilities and the like.
constexpr std::array kPlain{0L, 1L, 8L, 11L};
constexpr std::array kAerosolOptics{48L, 49L};

bool is_aerosol(Quantity quantity) {
    return quantity == Quantity::kAerosolDepth || quantity == Quantity::kAerosolExtinction;
}

/// The aerosol of a message that tells of aerosol; the reason to skip a product that is no single run or
/// member's.
tl::expected<std::optional<AerosolKind>, NotUsed> product_of(const GribHandle& handle, int edition,
                                                             const GribParameter& parameter) {
    if (edition == 1) {
        return parameter.aerosol;
    }
    const long product = handle.integer("productDefinitionTemplateNumber").value_or(-1);
    const auto in = [product](const auto& list) { return std::ranges::find(list, product) != list.end(); };
    const bool by_template = is_aerosol(parameter.quantity) && !parameter.aerosol;
    if (by_template ? !in(kAerosolOptics) : !in(kPlain)) {
        return tl::unexpected(NotUsed{
            fmt::format("{} by product template 4.{} is not used", name_of(parameter.quantity), product)});
    }
    if (!by_template) {
        return parameter.aerosol;
    }
    return aerosol_of(handle).map([](const AerosolKind& aerosol) { return std::optional(aerosol); });
}

/// A deterministic run may carry number 0 of 0.
std::optional<int> member_of(const GribHandle& handle) {
    const auto number = handle.integer("perturbationNumber");
    const long members = handle.integer("numberOfForecastsInEnsemble").value_or(0);
    return number && (*number > 0 || members > 0) ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

/// NCEP's processes 96 and, for its analysis, 81 are GFS; it runs other models under other numbers.
std::string source_of(GribHandle& handle, bool aerosol) {
    const long model = handle.integer("generatingProcessIdentifier").value_or(-1);
    if (handle.integer("centre").value_or(0) != kNcep) {
        const auto described = handle.text("centreDescription");
        return described ? *described : fmt::format("centre {}", handle.text("centre").value_or("unknown"));
    }
    const bool analysis = model == 81 && handle.integer("endStep").value_or(-1) == 0;
    return !aerosol && (model == 96 || analysis) ? "NCEP GFS" : fmt::format("NCEP model {}", model);
}

}  // namespace

tl::expected<std::variant<GribIdentity, NotUsed>, std::string> identity_of(GribHandle& handle, int edition) {
    if (auto unused = unused_time_unit(handle)) {
        return *std::move(unused);
    }
    const auto parameter = parameter_of(handle, edition);
    if (!parameter) {
        return parameter.error();
    }
    const auto aerosol = product_of(handle, edition, *parameter);
    if (!aerosol) {
        return aerosol.error();
    }
    const auto level = level_of(handle, edition, *parameter);
    if (!level) {
        return level.error();
    }
    return times_of(handle).map([&](const std::variant<GribTimes, NotUsed>& times) {
        if (const auto* not_used = std::get_if<NotUsed>(&times)) {
            return std::variant<GribIdentity, NotUsed>(*not_used);
        }
        return std::variant<GribIdentity, NotUsed>(GribIdentity{*parameter, *level, *aerosol,
                                                                std::get<GribTimes>(times), member_of(handle),
                                                                source_of(handle, aerosol->has_value())});
    });
}

}  // namespace gloam::weather
