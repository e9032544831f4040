#include "weather/point_json/place.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

namespace gloam::weather {
namespace {

tl::unexpected<Error> wrong_type(const JsonPlace& place, std::string_view wanted) {
    return damaged(place, fmt::format("{} stands where {} should", place.value->type_name(), wanted));
}

JsonPlace child(const JsonPlace& of, const std::string& key, const nlohmann::json& value) {
    return {of.file, of.path.empty() ? key : fmt::format("{}.{}", of.path, key), &value};
}

}  // namespace

std::string to_text(const JsonPlace& place) {
    return place.path.empty() ? std::string(place.file) : fmt::format("{}, {}", place.file, place.path);
}

tl::unexpected<Error> damaged(const JsonPlace& place, std::string message) {
    return fail(ErrorKind::kUnreadable, std::move(message), to_text(place),
                "fetch the forecast again: this one is damaged or has been changed");
}

Result<std::map<std::string, JsonPlace>> members(const JsonPlace& place) {
    if (!place.value->is_object()) {
        return wrong_type(place, "an object");
    }
    std::map<std::string, JsonPlace> found;
    for (const auto& [key, value] : place.value->items()) {
        found.emplace(key, child(place, key, value));
    }
    return found;
}

Result<JsonPlace> member(const JsonPlace& place, const std::string& key) {
    if (!place.value->is_object()) {
        return wrong_type(place, "an object");
    }
    const auto found = place.value->find(key);
    if (found == place.value->end()) {
        return damaged(place, fmt::format("'{}' is missing", key));
    }
    return child(place, key, *found);
}

Result<std::vector<JsonPlace>> elements(const JsonPlace& place) {
    if (!place.value->is_array()) {
        return wrong_type(place, "a list");
    }
    std::vector<JsonPlace> found;
    for (const nlohmann::json& value : *place.value) {
        found.push_back({place.file, fmt::format("{}[{}]", place.path, found.size()), &value});
    }
    return found;
}

Result<double> number(const JsonPlace& place) {
    if (!place.value->is_number()) {
        return wrong_type(place, "a number");
    }
    return place.value->get<double>();
}

Result<std::string> text(const JsonPlace& place) {
    if (!place.value->is_string()) {
        return wrong_type(place, "text");
    }
    return place.value->get<std::string>();
}

Result<Instant> instant(const JsonPlace& place) {
    const auto words = text(place);
    if (!words) {
        return tl::unexpected(words.error());
    }
    const auto parsed = parse_rfc3339(*words);
    return parsed ? Result<Instant>(*parsed) : damaged(place, parsed.error().message);
}

}  // namespace gloam::weather
