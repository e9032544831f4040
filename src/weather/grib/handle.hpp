#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "weather/grib/octets.hpp"

struct grib_handle;  // ecCodes' own type; its header stays out of ours

namespace gloam::weather {

/// Thrown where ecCodes would end the process on a broken assertion of its own.
class DecoderFailure : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A single-field message under ecCodes, silent: nothing is printed, whatever is wrong. It is opened when it
/// is first asked for something, for that is dear; then it throws DecoderFailure if ecCodes cannot make sense
/// of the message. Not for two threads at a time.
class GribHandle {
  public:
    /// Refers to `message`, which has to stay.
    explicit GribHandle(Octets message) : message_(message) {}

    /// Value of a key; absent if the message has no such key or marks it as missing.
    std::optional<long> integer(const char* key) const;
    std::optional<double> real(const char* key) const;
    std::optional<std::string> text(const char* key) const;

    /// Whether the key could be set.
    bool set(const char* key, double value);
    bool set(const char* key, const char* value);

    /// Fills `into` with the values of an array key; empties it if they cannot be decoded.
    void reals(const char* key, std::vector<double>& into) const;

  private:
    struct Release {
        void operator()(grib_handle* handle) const;
    };
    grib_handle* opened() const;

    Octets message_;
    mutable std::unique_ptr<grib_handle, Release> handle_;
};

/// Latitudes of all rows of the Gaussian grid with `half` rows (at least 1) from the equator to a pole: the
/// roots of a Legendre polynomial, degrees, falling. Throws DecoderFailure if they cannot be found.
std::vector<double> gaussian_latitudes_deg(long half);

}  // namespace gloam::weather
