#include "weather/grib/identity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace gloam::weather {
namespace {

constexpr long kNcep = 7;

/// Edition 2 product templates of plain fields and members, at a time or over a span; others are means,
/// spreads, probabilities and the like.
bool is_plain_product(const GribHandle& handle) {
    static constexpr std::array<long, 4> kPlain{0, 1, 8, 11};
    return std::ranges::find(kPlain, handle.integer("productDefinitionTemplateNumber").value_or(-1)) !=
           kPlain.end();
}

/// A deterministic run may carry number 0 of 0.
std::optional<int> member_of(const GribHandle& handle) {
    const auto number = handle.integer("perturbationNumber");
    const long members = handle.integer("numberOfForecastsInEnsemble").value_or(0);
    return number && (*number > 0 || members > 0) ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

std::string source_of(const GribHandle& handle) {
    const long model = handle.integer("generatingProcessIdentifier").value_or(-1);
    if (handle.integer("centre").value_or(0) == kNcep && (model == 81 || model == 96)) {
        return "NCEP GFS";
    }
    const auto described = handle.text("centreDescription");
    return described ? *described : fmt::format("centre {}", handle.text("centre").value_or("unknown"));
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
    if (edition == 2 && !is_plain_product(handle)) {
        return NotUsed{fmt::format("product template 4.{} (no single run or member) is not used",
                                   handle.integer("productDefinitionTemplateNumber").value_or(-1))};
    }
    const auto level = level_of(handle, edition, *parameter);
    if (!level) {
        return level.error();
    }
    return times_of(handle).map([&](const std::variant<GribTimes, NotUsed>& times) {
        if (const auto* not_used = std::get_if<NotUsed>(&times)) {
            return std::variant<GribIdentity, NotUsed>(*not_used);
        }
        return std::variant<GribIdentity, NotUsed>(GribIdentity{
            *parameter, *level, std::get<GribTimes>(times), member_of(handle), source_of(handle)});
    });
}

}  // namespace gloam::weather
