#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "base/error.hpp"
#include "sky/columns.hpp"
#include "sky/diffuse.hpp"

namespace gloam::sky {

/// The diffuse light of one stored atmosphere.
struct DiffuseNode {
    Atmosphere atmosphere;
    DiffuseField field;
};

/// Everything about clear air that is worth computing once: made by tools/make_sky_tables at build time,
/// embedded in the program.
struct SkyTables {
    Bands bands;
    ColumnTable columns;
    std::vector<DiffuseNode> nodes;  ///< the atmospheres of stored_atmospheres(), in that order
};

/// The atmospheres whose diffuse light is stored: aerosol depth .03, .10, .25, .50; then, with aerosol .10,
/// dust .3, stratospheric sulphate .03, ozone 480 DU, ground albedo .8.
std::vector<Atmosphere> stored_atmospheres();

/// Bytes of the tables; the same tables give the same bytes.
std::vector<std::byte> pack(const SkyTables& tables);
/// Reads packed tables; refuses bytes of another version, length or machine order.
Result<SkyTables> unpack_sky_tables(std::span<const std::byte> bytes);

/// One atmosphere, ready for the sky above any viewer.
struct Air {
    Air(const SkyTables& tables, const Atmosphere& amounts);

    Atmosphere atmosphere;
    const Bands* bands;  ///< of the tables, which must outlive this
    Optics optics;
    BeamTable beam;
    DiffuseField diffuse;  ///< between the stored atmospheres: linear in ln AOD and in the amounts of dust,
                           ///< sulphate and ozone and in the albedo, in the logarithm
};

}  // namespace gloam::sky
