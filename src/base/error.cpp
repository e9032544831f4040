#include "base/error.hpp"

namespace gloam {

std::string to_text(const Error& error) {
    std::string text = error.where.empty() ? error.message : error.where + ": " + error.message;
    if (!error.hint.empty()) {
        text += "\n  " + error.hint;
    }
    return text;
}

std::string_view name_of(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::kBadInput:
            return "bad_input";
        case ErrorKind::kOutOfDomain:
            return "out_of_domain";
        case ErrorKind::kNotFound:
            return "not_found";
        case ErrorKind::kUnreadable:
            return "unreadable";
        case ErrorKind::kUnsupported:
            return "unsupported";
        case ErrorKind::kIncomplete:
            return "incomplete";
        case ErrorKind::kBusy:
            return "busy";
        case ErrorKind::kDenied:
            return "denied";
        case ErrorKind::kInternal:
            break;
    }
    return "internal";
}

}  // namespace gloam
