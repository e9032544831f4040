#include "weather/grib/handle.hpp"

#include <eccodes.h>

#include <array>

namespace gloam::weather {
namespace {

void say_nothing(const codes_context* /*context*/, int /*level*/, const char* /*message*/) {}

/// Leaves through ecCodes' C frames, which carry unwind tables on every platform Debian ships; what the
/// frames hold leaks.
[[noreturn]] void leave(const char* assertion) {
    throw DecoderFailure(assertion);
}

/// ecCodes keeps one context for the process; setting it up again changes nothing.
codes_context* silent_context() {
    codes_context* context = codes_context_get_default();
    codes_context_set_logging_proc(context, say_nothing);
    codes_set_codes_assertion_failed_proc(leave);
    return context;
}

}  // namespace

void GribHandle::Release::operator()(grib_handle* handle) const {
    codes_handle_delete(handle);
}

grib_handle* GribHandle::opened() const {
    if (!handle_) {
        handle_.reset(codes_handle_new_from_message(silent_context(), message_.data(), message_.size()));
    }
    if (!handle_) {
        throw DecoderFailure("the headers of the message make no sense");
    }
    return handle_.get();
}

std::optional<long> GribHandle::integer(const char* key) const {
    long value = 0;
    const bool there = codes_get_long(opened(), key, &value) == CODES_SUCCESS;
    return there && value != CODES_MISSING_LONG ? std::optional(value) : std::nullopt;
}

std::optional<double> GribHandle::real(const char* key) const {
    double value = 0.0;
    const bool there = codes_get_double(opened(), key, &value) == CODES_SUCCESS;
    return there && value != CODES_MISSING_DOUBLE ? std::optional(value) : std::nullopt;
}

std::optional<std::string> GribHandle::text(const char* key) const {
    std::array<char, 256> value{};
    std::size_t length = value.size();
    if (codes_get_string(opened(), key, value.data(), &length) != CODES_SUCCESS) {
        return std::nullopt;
    }
    value.back() = '\0';
    return std::string(value.data());
}

bool GribHandle::set(const char* key, double value) {
    return codes_set_double(opened(), key, value) == CODES_SUCCESS;
}

bool GribHandle::set(const char* key, const char* value) {
    std::size_t length = std::char_traits<char>::length(value);
    return codes_set_string(opened(), key, value, &length) == CODES_SUCCESS;
}

void GribHandle::reals(const char* key, std::vector<double>& into) const {
    std::size_t size = 0;
    const bool there = codes_get_size(opened(), key, &size) == CODES_SUCCESS;
    into.resize(there ? size : 0);
    if (into.empty() || codes_get_double_array(opened(), key, into.data(), &size) != CODES_SUCCESS ||
        size != into.size()) {
        into.clear();
    }
}

std::vector<double> gaussian_latitudes_deg(long half) {
    std::vector<double> lats_deg(2 * static_cast<std::size_t>(half));
    if (codes_get_gaussian_latitudes(half, lats_deg.data()) != CODES_SUCCESS) {
        throw DecoderFailure("latitudes of a Gaussian grid");
    }
    return lats_deg;
}

}  // namespace gloam::weather
