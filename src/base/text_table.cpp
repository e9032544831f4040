#include "base/text_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace gloam {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";  // spreadsheets write it before UTF-8

std::vector<std::string> split(std::string_view line, char separator) {
    std::vector<std::string> fields;
    std::size_t start = 0;
    for (std::size_t at = line.find(separator); at != std::string_view::npos;
         at = line.find(separator, start)) {
        fields.emplace_back(line.substr(start, at - start));
        start = at + 1;
    }
    fields.emplace_back(line.substr(start));
    return fields;
}

}  // namespace

Result<std::size_t> TextTable::column(std::string_view name) const {
    const auto found = std::find(header.begin(), header.end(), name);
    if (found == header.end()) {
        return fail(ErrorKind::kUnreadable, fmt::format("the table has no column '{}'", name), where);
    }
    return static_cast<std::size_t>(found - header.begin());
}

Result<std::vector<double>> TextTable::numbers(std::string_view name) const {
    const auto index = column(name);
    if (!index) {
        return tl::unexpected(index.error());
    }
    std::vector<double> values;
    values.reserve(rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const std::string& field = rows[i][*index];
        double value = 0.0;
        const auto [end, error] = std::from_chars(field.data(), field.data() + field.size(), value);
        if (error != std::errc{} || end != field.data() + field.size() || !std::isfinite(value)) {
            return fail(ErrorKind::kUnreadable, fmt::format("'{}' is not a number", field),
                        fmt::format("{}, column {}, row {}", where, name, i + 1));
        }
        values.push_back(value);
    }
    return values;
}

Result<TextTable> parse_text_table(std::string_view text, char separator, std::string_view where) {
    TextTable table{std::string(where), {}, {}};
    if (text.starts_with(kByteOrderMark)) {
        text.remove_prefix(kByteOrderMark.size());
    }
    std::size_t line_number = 0;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        std::string_view line = text.substr(0, end);
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        ++line_number;
        if (!line.empty() && line.back() == '\r') {
            line.remove_suffix(1);
        }
        if (line.empty() || line.front() == '#') {
            continue;
        }
        auto fields = split(line, separator);
        if (table.header.empty()) {
            table.header = std::move(fields);
        } else if (fields.size() == table.header.size()) {
            table.rows.push_back(std::move(fields));
        } else {
            return fail(ErrorKind::kUnreadable,
                        fmt::format("{} fields instead of {}", fields.size(), table.header.size()),
                        fmt::format("{}, line {}", where, line_number));
        }
    }
    if (table.header.empty()) {
        return fail(ErrorKind::kUnreadable, "the table is empty", table.where);
    }
    return table;
}

}  // namespace gloam
