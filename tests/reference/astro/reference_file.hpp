#pragma once

#include <fmt/format.h>

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include "base/text_table.hpp"

namespace gloam::test {

inline std::string read_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) {
        throw std::runtime_error(fmt::format("cannot open {}", path));
    }
    std::ostringstream content;
    content << file.rdbuf();
    return content.str();
}

/// A comma-separated table of data/reference, with fields by column name.
class ReferenceFile {
  public:
    explicit ReferenceFile(std::string_view name)
        : table_(parse_text_table(read_file(fmt::format("{}/data/reference/{}", GLOAM_SOURCE_DIR, name)), ',',
                                  name)
                     .value()) {}

    std::size_t size() const { return table_.rows.size(); }
    const std::string& text(std::size_t row, std::string_view column) const {
        return table_.rows[row][table_.column(column).value()];
    }
    double number(std::size_t row, std::string_view column) const { return std::stod(text(row, column)); }

  private:
    TextTable table_;
};

}  // namespace gloam::test
