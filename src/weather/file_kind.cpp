#include "weather/file_kind.hpp"

#include <algorithm>
#include <array>

namespace gloam::weather {
namespace {

using std::string_view_literals::operator""sv;

constexpr std::array<FileKindWords, 16> kWords{{
    {"", ""},  // GRIB
    {"", ""},  // JSON
    {"this is an index of a GRIB file, not the file",
     "fetch the file itself, which bears the same name without .idx or .index"},
    {"this is BUFR, which holds observations and is not read", "give the forecast as GRIB"},
    {"this is netCDF, which is not read", "get the same fields as GRIB"},
    {"this is packed with bzip2", "unpack it first: bunzip2 FILE"},
    {"this is packed with gzip", "unpack it first: gunzip FILE"},
    {"this is packed with xz", "unpack it first: unxz FILE"},
    {"this is packed with zstd", "unpack it first: unzstd FILE"},
    {"this is a zip archive", "unpack it first: unzip FILE"},
    {"this is a web page or XML, not a forecast: the server refused the request",
     "open it to read why, then fetch the forecast again"},
    {"these are reports from airports, not a forecast of cloud", "give a forecast as GRIB"},
    {"this is a table in text, not a forecast that is read", "give a forecast as GRIB"},
    {"this is text, not a forecast", "open it to see what it says, and give a forecast as GRIB"},
    {"the file is empty", "fetch it again"},
    {"this is no file of a kind known here: its beginning holds no GRIB message",
     "give a forecast as GRIB edition 1 or 2, unpacked"},
}};

/// Bytes with which every file of a kind begins.
struct Signature {
    std::string_view bytes;
    FileKind kind;
};
constexpr std::array kSignatures{
    Signature{"GRIB"sv, FileKind::kGrib},
    Signature{"BUFR"sv, FileKind::kBufr},
    Signature{"\x89HDF\r\n\x1a\n"sv, FileKind::kNetCdf},  // netCDF 4
    Signature{"CDF\x01"sv, FileKind::kNetCdf},
    Signature{"CDF\x02"sv, FileKind::kNetCdf},
    Signature{"CDF\x05"sv, FileKind::kNetCdf},
    Signature{"BZh"sv, FileKind::kBzip2},
    Signature{"\x1f\x8b"sv, FileKind::kGzip},
    Signature{"\xfd\x37zXZ\0"sv, FileKind::kXz},
    Signature{"\x28\xb5\x2f\xfd"sv, FileKind::kZstd},
    Signature{"PK\x03\x04"sv, FileKind::kZip},
    Signature{"PK\x05\x06"sv, FileKind::kZip},  // with nothing in it
};

bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

bool is_digits(std::string_view text) {
    return !text.empty() && std::ranges::all_of(text, is_digit);
}

/// Whether a message with this mark begins somewhere: its eighth octet is an edition, which text never holds.
bool holds_message(std::string_view head, std::string_view mark, char least_edition, char most_edition) {
    constexpr std::size_t kEditionAt = 7;
    for (auto at = head.find(mark); at != std::string_view::npos; at = head.find(mark, at + 1)) {
        if (at + kEditionAt < head.size() && head[at + kEditionAt] >= least_edition &&
            head[at + kEditionAt] <= most_edition) {
            return true;
        }
    }
    return false;
}

/// Control characters other than white space and those that frame bulletins (start and end of heading or
/// text) stand in no text.
bool is_text(std::string_view head) {
    return std::ranges::none_of(head, [](char letter) {
        const auto code = static_cast<unsigned char>(letter);
        return code == 0 || (code > 4 && code < '\t') || (code > '\r' && code < ' ') || code == 0x7f;
    });
}

std::string_view without_leading(std::string_view text, std::string_view letters) {
    text.remove_prefix(std::min(text.find_first_not_of(letters), text.size()));
    return text;
}

/// Takes what stands before the first `end` off `text`, and `end` itself.
std::string_view take_until(char end, std::string_view& text) {
    const std::size_t length = std::min(text.find(end), text.size());
    const std::string_view taken = text.substr(0, length);
    text.remove_prefix(std::min(length + 1, text.size()));
    return taken;
}

/// "1:0:d=2023110400:...", also with the number of a field within the message, "1.2:0:d=...", or one JSON
/// object a line.
bool is_index_line(std::string_view line) {
    if (line.starts_with('{')) {
        return line.find("\"_offset\"") != std::string_view::npos;
    }
    const std::string_view number = take_until(':', line);
    const std::string_view offset = take_until(':', line);
    return is_digits(number.substr(0, number.find('.'))) && is_digits(offset) && line.starts_with("d=");
}

/// A station and a time: "KSGF 280553Z".
bool holds_airport_report(std::string_view text) {
    constexpr std::string_view kReport = "AAAA 000000Z";
    const auto fits = [](char letter, char form) {
        return form == 'A' ? letter >= 'A' && letter <= 'Z' : form == '0' ? is_digit(letter) : letter == form;
    };
    return std::search(text.begin(), text.end(), kReport.begin(), kReport.end(), fits) != text.end();
}

/// Whether the first two lines that are no notes have the same number of separators, at least one.
bool is_table(std::string_view text) {
    std::array<std::string_view, 2> lines;
    for (std::size_t found = 0; found < lines.size() && !text.empty();) {
        lines[found] = take_until('\n', text);
        found += lines[found].empty() || lines[found].starts_with('#') ? 0U : 1U;
    }
    return std::ranges::any_of(",;\t"sv, [&lines](char separator) {
        const auto count = std::ranges::count(lines[0], separator);
        return count > 0 && count == std::ranges::count(lines[1], separator);
    });
}

FileKind kind_of_text(std::string_view text) {
    text = without_leading(text, "\xef\xbb\xbf");  // byte order mark
    text = without_leading(text, " \t\r\n");
    if (is_index_line(text.substr(0, text.find('\n')))) {
        return FileKind::kGribIndex;
    }
    if (text.starts_with('{') || text.starts_with('[')) {
        return FileKind::kJson;
    }
    if (text.starts_with('<')) {
        return FileKind::kMarkup;
    }
    if (holds_airport_report(text)) {
        return FileKind::kAirportText;
    }
    return is_table(text) ? FileKind::kTable : FileKind::kText;
}

}  // namespace

const FileKindWords& words_of(FileKind kind) {
    return kWords[static_cast<std::size_t>(kind)];
}

FileKind kind_of(std::span<const std::byte> head) {
    const std::string_view bytes(reinterpret_cast<const char*>(head.data()),
                                 std::min(head.size(), kKindHead));
    if (bytes.empty()) {
        return FileKind::kEmpty;
    }
    const auto* const known = std::ranges::find_if(
        kSignatures, [bytes](const Signature& signature) { return bytes.starts_with(signature.bytes); });
    if (known != kSignatures.end()) {
        return known->kind;
    }
    if (holds_message(bytes, "GRIB", 1, 2)) {
        return FileKind::kGrib;
    }
    if (holds_message(bytes, "BUFR", 2, 4)) {
        return FileKind::kBufr;
    }
    return is_text(bytes) ? kind_of_text(bytes) : FileKind::kUnknown;
}

}  // namespace gloam::weather
