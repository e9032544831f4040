#include "weather/grib/identity.hpp"

#include <fmt/format.h>

#include "weather/grib/aerosol.hpp"

namespace gloam::weather {
namespace {

constexpr long kNcep = 7;

bool is_aerosol(Quantity quantity) {
    return quantity == Quantity::kAerosolDepth || quantity == Quantity::kAerosolExtinction;
}

/// Whether the parameter leaves species and wavelength to the product template.
bool needs_optics(const GribParameter& parameter) {
    return is_aerosol(parameter.quantity) && !parameter.aerosol;
}

/// Edition 2: the reason to skip a product that is no single run or member's, or tells too much or too little
/// of aerosol for its parameter.
std::optional<NotUsed> unused_product(const GribField& field, const GribParameter& parameter) {
    if (field.edition == 1) {
        return std::nullopt;
    }
    const long number = product_template(field);
    if (is_used_product(number) && is_of_aerosol_optics(number) == needs_optics(parameter)) {
        return std::nullopt;
    }
    return NotUsed{
        fmt::format("{} by product template 4.{} is not used", name_of(parameter.quantity), number)};
}

/// The aerosol of a message that tells of aerosol.
tl::expected<std::optional<AerosolKind>, NotUsed> aerosol_in(const GribField& field,
                                                             const GribParameter& parameter) {
    if (!needs_optics(parameter)) {
        return parameter.aerosol;
    }
    return aerosol_of(field).map([](const AerosolKind& aerosol) { return std::optional(aerosol); });
}

/// A deterministic run may carry number 0 of 0.
std::optional<int> member_of(const std::optional<GribProduct::Member>& member) {
    const bool there = member && (member->number > 0 || member->members > 0);
    return there ? std::optional(static_cast<int>(member->number)) : std::nullopt;
}

/// Edition 1 keeps members where each centre likes, behind the 40 octets that are for all.
std::optional<int> member_of_edition1(const GribField& field, const GribHandle& handle) {
    if (field.identification.size() <= 40) {
        return std::nullopt;
    }
    const auto number = handle.integer("perturbationNumber");
    const long members = handle.integer("numberOfForecastsInEnsemble").value_or(0);
    return number ? member_of(GribProduct::Member{*number, members}) : std::nullopt;
}

/// NCEP's processes 96 and, for its analysis, 81 are GFS; it runs other models under other numbers.
std::string model_of_ncep(long process, bool analysis, bool aerosol) {
    return !aerosol && (process == 96 || (process == 81 && analysis)) ? "NCEP GFS"
                                                                      : fmt::format("NCEP model {}", process);
}

const std::string& centre_in_words(std::pair<int, long> centre, const GribHandle& handle,
                                   CentreNames& centres) {
    const auto known = centres.find(centre);
    if (known != centres.end()) {
        return known->second;
    }
    const auto described = handle.text("centreDescription");
    return centres[centre] =
               described ? *described : fmt::format("centre {}", handle.text("centre").value_or("unknown"));
}

/// Producing centre and model in words.
std::string source_of(const GribField& field, const GribHandle& handle, CentreNames& centres, long process,
                      const GribIdentity& identity) {
    const long centre = centre_of(field);
    return centre == kNcep ? model_of_ncep(process, identity.times.to == identity.times.run_time,
                                           identity.aerosol.has_value())
                           : centre_in_words({field.edition, centre}, handle, centres);
}

}  // namespace

tl::expected<std::variant<GribIdentity, NotUsed>, std::string> identity_of(const GribField& field,
                                                                           GribHandle& handle,
                                                                           CentreNames& centres) {
    if (auto unused = field.edition == 1 ? unused_time_unit_of_edition1(field) : std::nullopt) {
        return *std::move(unused);
    }
    const auto parameter = parameter_of(field, handle);
    if (!parameter) {
        return parameter.error();
    }
    if (auto unused = unused_product(field, *parameter)) {
        return *std::move(unused);
    }
    const auto product = product_of(field);
    if (!product) {
        return tl::unexpected(product.error());
    }
    const auto aerosol = aerosol_in(field, *parameter);
    if (!aerosol) {
        return aerosol.error();
    }
    const auto level = level_of(product->surfaces, *parameter);
    if (!level) {
        return level.error();
    }
    const auto times =
        field.edition == 1 ? times_of_edition1(field, handle) : times_of_edition2(field, *product, handle);
    return times.map([&](const std::variant<GribTimes, NotUsed>& known) {
        if (const auto* not_used = std::get_if<NotUsed>(&known)) {
            return std::variant<GribIdentity, NotUsed>(*not_used);
        }
        GribIdentity identity{
            *parameter,
            *level,
            *aerosol,
            std::get<GribTimes>(known),
            field.edition == 1 ? member_of_edition1(field, handle) : member_of(product->member),
            {}};
        identity.source = source_of(field, handle, centres, product->generating_process, identity);
        return std::variant<GribIdentity, NotUsed>(std::move(identity));
    });
}

}  // namespace gloam::weather
