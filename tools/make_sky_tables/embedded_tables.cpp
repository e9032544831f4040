#include "sky/embedded_tables.hpp"

extern "C" {
extern const std::byte gloam_sky_tables_begin[];
extern const std::byte gloam_sky_tables_end[];
}

namespace gloam::sky {

std::span<const std::byte> embedded_tables() {
    return {gloam_sky_tables_begin, gloam_sky_tables_end};
}

}  // namespace gloam::sky
