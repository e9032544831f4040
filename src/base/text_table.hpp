#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"

namespace gloam {

/// A small text table (comma or tab separated, no quoting): rows of fields. Lines that start with '#' are
/// notes and are dropped; blank lines and a leading byte order mark too.
struct TextTable {
    std::string where;                           ///< what errors call the table
    std::vector<std::string> header;             ///< fields of the first row
    std::vector<std::vector<std::string>> rows;  ///< every row has as many fields as the header

    /// Index of the column named `name`.
    Result<std::size_t> column(std::string_view name) const;
    /// The column named `name` as numbers; refuses a field that is no finite number.
    Result<std::vector<double>> numbers(std::string_view name) const;
};

/// Splits `text` at `separator`; refuses rows of another length than the header. `where` names the text in
/// errors.
Result<TextTable> parse_text_table(std::string_view text, char separator, std::string_view where);

}  // namespace gloam
