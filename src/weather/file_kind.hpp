#pragma once

#include <cstddef>
#include <span>
#include <string_view>

namespace gloam::weather {

/// What a file is, as its first bytes tell.
enum class FileKind {
    kGrib,  ///< at once or after junk, such as the heading of a bulletin
    kJson,
    kGribIndex,
    kBufr,
    kNetCdf,
    kBzip2,
    kGzip,
    kXz,
    kZstd,
    kZip,
    kMarkup,       ///< a web page or other XML
    kAirportText,  ///< METAR and the like
    kTable,        ///< rows of comma, semicolon or tab separated text
    kText,         ///< any other
    kEmpty,
    kUnknown,
};

/// What to tell a person who gave such a file for a forecast; both empty for the kinds that are read, kGrib
/// and kJson.
struct FileKindWords {
    std::string_view sentence;  ///< what it is
    std::string_view remedy;    ///< what to do
};
const FileKindWords& words_of(FileKind kind);

/// How much of a file `kind_of` looks at.
inline constexpr std::size_t kKindHead = 64U << 10U;

/// The kind of a file from its first kKindHead bytes, or from all of them if it is shorter. Whether what
/// follows is sound is for the readers to say.
FileKind kind_of(std::span<const std::byte> head);

}  // namespace gloam::weather
