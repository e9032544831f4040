#include "weather/point_json/parse.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <string>

namespace gloam::weather {
namespace {

using nlohmann::json;

constexpr int kDeepest = 16;  // a Locationforecast goes down 8 levels
constexpr const char* kFetchAgain = "fetch the forecast again: this one is damaged or only partly here";

tl::unexpected<Error> no_json(std::string where) {
    return fail(ErrorKind::kUnreadable, "this is no sound JSON", std::move(where), kFetchAgain);
}

}  // namespace

Result<json> parse_json(std::string_view text, std::string_view name) {
    if (text.size() > kMostJsonBytes) {
        return fail(ErrorKind::kUnreadable,
                    fmt::format("a JSON of {} bytes is no forecast for a point, which takes less than {}",
                                text.size(), kMostJsonBytes),
                    std::string(name), "give the forecast for one point, as it was fetched");
    }
    bool too_deep = false;
    // What lies too deep is not kept, so that no tree grows that would be dear to hold.
    const auto keep = [&too_deep](int depth, json::parse_event_t, const json&) {
        too_deep = too_deep || depth > kDeepest;
        return !too_deep;
    };
    try {
        json tree = json::parse(text, keep);
        if (too_deep) {
            return fail(ErrorKind::kUnreadable, fmt::format("the JSON is more than {} levels deep", kDeepest),
                        std::string(name), kFetchAgain);
        }
        return tree;
    } catch (const json::parse_error& error) {
        return no_json(fmt::format("{}, byte {}", name, error.byte));
    } catch (const json::out_of_range&) {  // a number beyond a double
        return no_json(std::string(name));
    }
}

}  // namespace gloam::weather
