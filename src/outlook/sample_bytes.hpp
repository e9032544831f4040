#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "outlook/event_sample.hpp"

namespace gloam::outlook {

/// A sample as bytes, compressed; the same sample gives the same bytes. Optics of cloud and spectra of air
/// are not in them: they are the model's, not the forecast's.
std::vector<std::byte> pack(const EventSample& sample);

/// The sample that pack() was given. Error (kUnreadable): bytes of another kind, cut short, or of numbers
/// that no sample has.
Result<EventSample> unpack_sample(std::span<const std::byte> bytes);

}  // namespace gloam::outlook
