#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "weather/grib/frames.hpp"

namespace gloam::weather {

/// One field of a message: its sections as they stand in the file, and the field as a message of its own.
/// Refers to the frame.
struct GribField {
    FieldOrigin origin;
    int edition = 2;
    int discipline = 0;     ///< edition 2
    Octets identification;  ///< section 1
    Octets product;         ///< edition 2: section 4; empty in edition 1, whose section 1 has it all
    Octets grid;            ///< edition 1: section 2 (empty if there is none); edition 2: section 3
    Octets representation;  ///< edition 2: section 5; empty in edition 1
    Octets bitmap;          ///< edition 1: section 3; edition 2: section 6; empty if there is none
    Octets data;            ///< edition 1: section 4; edition 2: section 7; empty if it has not been read
    Octets message;
    std::unique_ptr<const std::vector<std::byte>> made;  ///< the message where the file has it not as such
};

/// Takes a message apart into its fields. An edition 2 message may hold several; a bitmap "as before" is
/// replaced by the one that is meant. Error (kUnreadable) if the sections do not add up to the message.
Result<std::vector<GribField>> fields_of(const GribFrame& frame);

/// The field of a message of which only the beginning has been read, but all of its headers: without data,
/// and its own message holds no values. Absent if the beginning is not enough to tell, or anything is odd.
std::optional<GribField> headers_of(const GribFrame& frame);

}  // namespace gloam::weather
