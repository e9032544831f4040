#pragma once

#include <map>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/instant.hpp"

namespace gloam::weather {

/// A value of a parsed JSON text and the way to it. Refers to the text's tree and to the file's name.
struct JsonPlace {
    std::string_view file;
    std::string path;  ///< "properties.timeseries[3].time"; empty for the root
    const nlohmann::json* value = nullptr;
};

/// "file.json, properties.timeseries[3].time".
std::string to_text(const JsonPlace& place);

/// Error (kUnreadable) that names the place.
tl::unexpected<Error> damaged(const JsonPlace& place, std::string message);

/// The members of an object by key. Error as above if the value is no object.
Result<std::map<std::string, JsonPlace>> members(const JsonPlace& place);

/// A member that must be there. Error as above if it is not, or if the value is no object.
Result<JsonPlace> member(const JsonPlace& place, const std::string& key);

/// The elements of an array in order. Error as above if the value is no array.
Result<std::vector<JsonPlace>> elements(const JsonPlace& place);

/// The value as a number, always finite; error as above if it is anything else.
Result<double> number(const JsonPlace& place);

/// The value as text; error as above if it is anything else.
Result<std::string> text(const JsonPlace& place);

/// The value as a time in RFC 3339; error as above if it is anything else.
Result<Instant> instant(const JsonPlace& place);

}  // namespace gloam::weather
