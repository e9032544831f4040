#include "sky/sky_tables.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <type_traits>

namespace gloam::sky {
namespace {

constexpr std::array<double, 4> kAerosolDepths{0.03, 0.10, 0.25, 0.50};
constexpr std::size_t kBaseNode = 1;  // aerosol .10, nothing else: what follows is stored on top of it
constexpr std::size_t kDustNode = 4;
constexpr std::size_t kSulphateNode = 5;
constexpr std::size_t kOzoneNode = 6;
constexpr std::size_t kSnowNode = 7;
constexpr double kStoredDust = 0.3;
constexpr double kStoredSulphate = 0.03;
constexpr double kStoredSulphateAngstrom = 1.3;
constexpr double kStoredOzone_du = 480.0;
constexpr double kStoredAlbedo = 0.8;

/// First bytes of packed tables: name and layout version; a machine of another byte order reads another
/// number.
constexpr std::uint64_t kMagic = 0x474c4f414d534b32;

class Writer {
  public:
    template <class T>
    void put(const T* first, std::size_t count) {
        static_assert(std::is_trivially_copyable_v<T>);
        const auto* raw = reinterpret_cast<const std::byte*>(first);
        bytes_.insert(bytes_.end(), raw, raw + count * sizeof(T));
    }
    std::vector<std::byte> take() { return std::move(bytes_); }

  private:
    std::vector<std::byte> bytes_;
};

class Reader {
  public:
    explicit Reader(std::span<const std::byte> bytes) : bytes_(bytes) {}
    template <class T>
    void get(T* first, std::size_t count) {
        static_assert(std::is_trivially_copyable_v<T>);
        std::memcpy(static_cast<void*>(first), bytes_.data(), count * sizeof(T));
        bytes_ = bytes_.subspan(count * sizeof(T));
    }

  private:
    std::span<const std::byte> bytes_;
};

constexpr std::size_t kColumnNodes = ColumnTable::kRows * ColumnTable::kNodes;

std::size_t packed_size() {
    return sizeof(kMagic) + sizeof(Bands) + sizeof(ColumnTable::edge_rad_) +
           kColumnNodes * sizeof(ColumnTable::Node) +
           stored_atmospheres().size() * DiffuseField::places() * kBands *
               (DiffuseField::kFields * sizeof(float) + DiffuseField::kMoments * sizeof(std::int16_t));
}

/// Weights of the stored fields, adding up to 1 (in the logarithm).
std::vector<double> diffuse_weights(const Atmosphere& amounts) {
    std::vector<double> weights(stored_atmospheres().size(), 0.0);
    std::size_t k = 0;
    while (k + 2 < kAerosolDepths.size() && amounts.aerosol_depth_550 > kAerosolDepths[k + 1]) {
        ++k;
    }
    const double ln_low = std::log(kAerosolDepths[k]);
    const double share = (std::log(std::max(amounts.aerosol_depth_550, 1e-3)) - ln_low) /
                         (std::log(kAerosolDepths[k + 1]) - ln_low);
    weights[k] = 1.0 - share;
    weights[k + 1] = share;
    const Atmosphere base;
    const auto share_of = [](double amount, double at_base, double at_node) {
        return (amount - at_base) / (at_node - at_base);
    };
    weights[kDustNode] = share_of(amounts.dust_depth_550, base.dust_depth_550, kStoredDust);
    weights[kSulphateNode] = share_of(amounts.sulphate_depth_550, base.sulphate_depth_550, kStoredSulphate);
    weights[kOzoneNode] = share_of(amounts.ozone_du, base.ozone_du, kStoredOzone_du);
    weights[kSnowNode] = share_of(amounts.ground_albedo, base.ground_albedo, kStoredAlbedo);
    for (const std::size_t node : {kDustNode, kSulphateNode, kOzoneNode, kSnowNode}) {
        weights[kBaseNode] -= weights[node];
    }
    return weights;
}

DiffuseField diffuse_of(const SkyTables& tables, const Atmosphere& amounts) {
    std::vector<const DiffuseField*> fields;
    fields.reserve(tables.nodes.size());
    for (const DiffuseNode& node : tables.nodes) {
        fields.push_back(&node.field);
    }
    return DiffuseField::mixture(fields, diffuse_weights(amounts));
}

}  // namespace

std::vector<Atmosphere> stored_atmospheres() {
    std::vector<Atmosphere> all;
    for (const double depth : kAerosolDepths) {
        Atmosphere atmosphere;
        atmosphere.aerosol_depth_550 = depth;
        all.push_back(atmosphere);
    }
    Atmosphere dusty;
    dusty.dust_depth_550 = kStoredDust;
    all.push_back(dusty);
    Atmosphere volcanic;
    volcanic.sulphate_depth_550 = kStoredSulphate;
    volcanic.sulphate_angstrom = kStoredSulphateAngstrom;
    all.push_back(volcanic);
    Atmosphere blue;
    blue.ozone_du = kStoredOzone_du;
    all.push_back(blue);
    Atmosphere snowy;
    snowy.ground_albedo = kStoredAlbedo;
    all.push_back(snowy);
    return all;
}

std::vector<std::byte> pack(const SkyTables& tables) {
    Writer writer;
    writer.put(&kMagic, 1);
    writer.put(&tables.bands, 1);
    writer.put(tables.columns.edge_rad_.data(), tables.columns.edge_rad_.size());
    writer.put(tables.columns.nodes_.data(), tables.columns.nodes_.size());
    for (const DiffuseNode& node : tables.nodes) {
        writer.put(node.field.ln_values().data(), node.field.ln_values().size());
        writer.put(node.field.moments().data(), node.field.moments().size());
    }
    return writer.take();
}

Result<SkyTables> unpack_sky_tables(std::span<const std::byte> bytes) {
    std::uint64_t magic = 0;
    if (bytes.size() == packed_size()) {
        std::memcpy(&magic, bytes.data(), sizeof magic);
    }
    if (magic != kMagic) {
        return fail(ErrorKind::kUnreadable, "these are not the sky tables of this version", "sky tables",
                    "build the program again");
    }
    Reader reader(bytes.subspan(sizeof magic));
    SkyTables tables;
    reader.get(&tables.bands, 1);
    reader.get(tables.columns.edge_rad_.data(), tables.columns.edge_rad_.size());
    tables.columns.nodes_.resize(kColumnNodes);
    reader.get(tables.columns.nodes_.data(), tables.columns.nodes_.size());
    for (const Atmosphere& atmosphere : stored_atmospheres()) {
        DiffuseField::LnValues ln(DiffuseField::kFields * DiffuseField::places() * kBands);
        reader.get(ln.data(), ln.size());
        DiffuseField::Moments moments(DiffuseField::kMoments * DiffuseField::places() * kBands);
        reader.get(moments.data(), moments.size());
        tables.nodes.push_back({atmosphere, DiffuseField(std::move(ln), std::move(moments))});
    }
    return tables;
}

Air::Air(const SkyTables& tables, const Atmosphere& amounts)
    : atmosphere(amounts),
      bands(&tables.bands),
      optics(optics_of(amounts, tables.bands)),
      beam(tables.columns, optics, amounts.aerosol_scale_height_m),
      diffuse(diffuse_of(tables, amounts)) {}

}  // namespace gloam::sky
