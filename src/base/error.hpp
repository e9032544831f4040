#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>

namespace gloam {

/// What sort of thing went wrong. `app` maps each kind to one exit code.
enum class ErrorKind {
    kBadInput,     ///< the caller's words or numbers make no sense
    kOutOfDomain,  ///< sensible, but outside the range that the model or the data covers
    kNotFound,     ///< something named does not exist
    kUnreadable,   ///< a file exists but its bytes are damaged or of another kind
    kUnsupported,  ///< a sound file or request that this version cannot use
    kIncomplete,   ///< data that the answer needs is missing
    kBusy,         ///< another process holds what is needed; later it will do
    kDenied,       ///< the system refuses: no permission, a full disk
    kInternal,     ///< a broken promise of the program itself
};

/// An error that a person can act on.
struct Error {
    ErrorKind kind = ErrorKind::kInternal;
    std::string message;  ///< what is wrong
    std::string where;    ///< file, message number, field; empty if there is no such place
    std::string hint;     ///< what to do about it
};

template <class T>
using Result = tl::expected<T, Error>;

/// Wraps an error for return from a function that yields `Result`.
inline tl::unexpected<Error> fail(ErrorKind kind, std::string message, std::string where = {},
                                  std::string hint = {}) {
    return tl::unexpected<Error>(Error{kind, std::move(message), std::move(where), std::move(hint)});
}

/// "where: message", and the hint on a line of its own, indented by two.
std::string to_text(const Error& error);

/// Stable lower-case name of a kind, e.g. "bad_input".
std::string_view name_of(ErrorKind kind);

}  // namespace gloam
