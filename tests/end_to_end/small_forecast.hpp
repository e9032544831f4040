#pragma once

#include <string>
#include <vector>

#include "support/equator_dawn.hpp"
#include "support/folder.hpp"

namespace gloam {

/// A synthetic ensemble of two for the equator's dawn, twilight only: a call in a fraction of a second.
inline synthetic::Bytes small_forecast() {
    return synthetic::dawn_file(
        {.step_minutes = {synthetic::kTwilightOnly}, .levels_hpa = {850, 550, 300}, .members = 2},
        std::vector<synthetic::Deck>{{synthetic::kAt9km, synthetic::up_to_km(200.0, 0.8)}});
}

/// Writes a forecast for the program to read.
inline std::string written(const test::Folder& folder, const synthetic::Bytes& bytes) {
    const auto file = folder / "synthetic.grib2";
    synthetic::write_file(file, bytes);
    return file.string();
}

/// The words of a call for the equator's dawn.
inline std::vector<std::string> call_words(const std::string& forecast) {
    return {"call",       "--place", "0,0,0", "--zone",     "Etc/UTC", "--date",
            "2025-03-20", "--event", "dawn",  "--forecast", forecast};
}

/// The same words with one option's value changed, or the option added.
inline std::vector<std::string> with(std::vector<std::string> words, const std::string& option,
                                     const std::string& value) {
    for (std::size_t i = 0; i + 1 < words.size(); ++i) {
        if (words[i] == option) {
            words[i + 1] = value;
            return words;
        }
    }
    words.push_back(option);
    words.push_back(value);
    return words;
}

}  // namespace gloam
