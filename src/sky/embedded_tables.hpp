#pragma once

#include <cstddef>
#include <span>

namespace gloam::sky {

/// The packed sky tables that were made when this program was built; see unpack_sky_tables.
std::span<const std::byte> embedded_tables();

}  // namespace gloam::sky
