#include "app/exit_codes.hpp"

namespace gloam::app {

int exit_code_of(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::kBadInput:
            return 2;
        case ErrorKind::kNotFound:
            return 3;
        case ErrorKind::kUnreadable:
            return 4;
        case ErrorKind::kOutOfDomain:
            return 5;
        case ErrorKind::kIncomplete:
            return 6;
        case ErrorKind::kUnsupported:
            return 7;
        case ErrorKind::kBusy:
            return 8;
        case ErrorKind::kDenied:
            return 9;
        case ErrorKind::kInternal:
            break;
    }
    return 70;
}

}  // namespace gloam::app
