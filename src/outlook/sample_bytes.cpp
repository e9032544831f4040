#include "outlook/sample_bytes.hpp"

#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <stdexcept>

namespace gloam::outlook {
namespace {

static_assert(std::endian::native == std::endian::little, "numbers are stored low octet first");

/// Stands at the head of the bytes, before what is compressed; the last character counts the layouts.
constexpr std::array<char, 8> kMark{'G', 'l', 'o', 'a', 'm', 's', 't', '1'};
/// Far above any forecast, far below what would fill a memory.
constexpr std::uint64_t kMostOfAKind = 100000;
constexpr std::uint64_t kMostBytes = std::uint64_t{1} << 30U;

/// What walk() meets on the way out: appends each part.
class Writer {
  public:
    static constexpr bool kReads = false;
    template <class T>
    void number(const T& value) {
        const auto* first = reinterpret_cast<const std::byte*>(&value);
        bytes.insert(bytes.end(), first, first + sizeof value);
    }
    template <class T>
    void count(const T& items) {
        number(static_cast<std::uint64_t>(items.size()));
    }
    std::vector<std::byte> bytes;
};

/// Bytes that hold no sample.
struct NoSample : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// What walk() meets on the way in: fills each part. Throws NoSample.
class Reader {
  public:
    static constexpr bool kReads = true;
    explicit Reader(std::span<const std::byte> from) : left(from) {}

    template <class T>
    void number(T& value) {
        if (left.size() < sizeof value) {
            throw NoSample("they end too soon");
        }
        std::memcpy(&value, left.data(), sizeof value);
        left = left.subspan(sizeof value);
        if constexpr (std::is_floating_point_v<T>) {
            if (!std::isfinite(value)) {
                throw NoSample("a number is not finite");
            }
        }
    }
    template <class T>
    void count(T& items) {
        std::uint64_t size = 0;
        number(size);
        if (size > kMostOfAKind || size > left.size()) {
            throw NoSample("a count makes no sense");
        }
        items.resize(size);
    }
    std::span<const std::byte> left;
};

/// A value kept in another form: `get` gives it, `set` takes it back.
template <class Archive, class Value>
void kept(Archive& archive, Value value, const auto& set) {
    archive.number(value);
    if constexpr (Archive::kReads) {
        set(value);
    }
}

template <class Archive>
void walk(Archive& archive, Instant& instant) {
    kept(archive, std::int64_t{instant.time_since_epoch().count()},
         [&](std::int64_t ms) { instant = Instant(Duration(ms)); });
}

template <class Archive>
void walk(Archive& archive, std::string& text) {
    archive.count(text);
    for (char& letter : text) {
        archive.number(letter);
    }
}

template <class Archive>
void walk(Archive& archive, Moment& moment) {
    walk(archive, moment.instant);
    kept(archive, moment.azimuth.degrees(), [&](double deg) { moment.azimuth = Azimuth::degrees(deg); });
    kept(archive, moment.sun.elevation.radians(),
         [&](double rad) { moment.sun.elevation = Angle::radians(rad); });
    archive.number(moment.sun.distance_au);
}

template <class Archive>
void walk(Archive& archive, sky::Atmosphere& air) {
    for (double* amount :
         {&air.ozone_du, &air.aerosol_depth_550, &air.aerosol_angstrom, &air.aerosol_scale_height_m,
          &air.dust_depth_550, &air.sulphate_depth_550, &air.sulphate_angstrom, &air.ground_albedo}) {
        archive.number(*amount);
    }
}

template <class Archive>
void walk(Archive& archive, sky::CloudLayer& layer, double depth_factor) {
    kept(archive, static_cast<std::uint8_t>(layer.kind), [&](std::uint8_t kind) {
        if (kind > static_cast<std::uint8_t>(sky::CloudClass::kHigh)) {
            throw NoSample("a kind of cloud is unknown");
        }
        layer.kind = static_cast<sky::CloudClass>(kind);
        layer.optics = sky::cloud_optics(layer.kind, depth_factor);
    });
    archive.number(layer.base_m);
    archive.number(layer.top_m);
    for (auto& line : layer.cover) {
        for (float& cover : line) {
            archive.number(cover);
        }
    }
}

template <class Archive>
void walk(Archive& archive, SampledMember& member) {
    walk(archive, member.atmosphere);
    kept(archive, member.cloud_depth_factor, [&](double factor) {
        if (!(factor >= 0.1 && factor <= 10.0)) {
            throw NoSample("a depth of cloud makes no sense");
        }
        member.cloud_depth_factor = factor;
    });
    archive.count(member.clouds.readings);
    for (CloudReading& reading : member.clouds.readings) {
        walk(archive, reading.instant);
        archive.count(reading.layers);
        for (sky::CloudLayer& layer : reading.layers) {
            walk(archive, layer, member.cloud_depth_factor);
        }
    }
}

/// Every part of a sample in order: the one description of the layout, for both ways.
template <class Archive>
void walk(Archive& archive, EventSample& sample) {
    archive.number(sample.viewer_height.metres);
    kept(archive, static_cast<std::uint8_t>(sample.bands_assumed),
         [&](std::uint8_t assumed) { sample.bands_assumed = assumed != 0; });
    archive.count(sample.moments);
    for (Moment& moment : sample.moments) {
        walk(archive, moment);
    }
    archive.count(sample.missing);
    for (std::string& words : sample.missing) {
        walk(archive, words);
    }
    archive.count(sample.members);
    for (SampledMember& member : sample.members) {
        walk(archive, member);
    }
}

/// Whether each member has cloud readings from the first moment to the last, with the same layers in each.
bool is_whole(const EventSample& sample) {
    const auto spans = [&](const SampledMember& member) {
        const auto& readings = member.clouds.readings;
        return !readings.empty() && readings.front().instant <= sample.moments.front().instant &&
               readings.back().instant >= sample.moments.back().instant && !readings.front().layers.empty() &&
               std::ranges::is_sorted(readings, {}, &CloudReading::instant) &&
               std::ranges::all_of(readings, [&](const CloudReading& reading) {
                   return reading.layers.size() == readings.front().layers.size();
               });
    };
    return !sample.moments.empty() && !sample.members.empty() &&
           std::ranges::is_sorted(sample.moments, {}, &Moment::instant) &&
           std::ranges::all_of(sample.members, spans);
}

std::vector<std::byte> deflated(std::span<const std::byte> plain) {
    uLongf size = compressBound(plain.size());
    std::vector<std::byte> packed(size);
    compress2(reinterpret_cast<Bytef*>(packed.data()), &size, reinterpret_cast<const Bytef*>(plain.data()),
              plain.size(), Z_BEST_SPEED);
    packed.resize(size);
    return packed;
}

/// Throws NoSample.
std::vector<std::byte> inflated(std::span<const std::byte> packed, std::uint64_t plain_size) {
    if (plain_size > kMostBytes) {
        throw NoSample("their length makes no sense");
    }
    std::vector<std::byte> plain(plain_size);
    uLongf size = plain_size;
    if (uncompress(reinterpret_cast<Bytef*>(plain.data()), &size,
                   reinterpret_cast<const Bytef*>(packed.data()), packed.size()) != Z_OK ||
        size != plain_size) {
        throw NoSample("they are damaged");
    }
    return plain;
}

EventSample read_sample(std::span<const std::byte> bytes) {
    Reader head(bytes);
    std::array<char, kMark.size()> mark{};
    std::uint64_t plain_size = 0;
    for (char& letter : mark) {
        head.number(letter);
    }
    if (mark != kMark) {
        throw NoSample("they are of another kind or version");
    }
    head.number(plain_size);
    const auto plain = inflated(head.left, plain_size);
    Reader reader(plain);
    EventSample sample;
    walk(reader, sample);
    if (!reader.left.empty() || !is_whole(sample)) {
        throw NoSample("their parts do not fit together");
    }
    return sample;
}

}  // namespace

std::vector<std::byte> pack(const EventSample& sample) {
    Writer plain;
    EventSample copy = sample;  // walk() takes what it may fill
    walk(plain, copy);
    Writer packed;
    for (const char letter : kMark) {
        packed.number(letter);
    }
    packed.number(std::uint64_t{plain.bytes.size()});
    const auto body = deflated(plain.bytes);
    packed.bytes.insert(packed.bytes.end(), body.begin(), body.end());
    return std::move(packed.bytes);
}

Result<EventSample> unpack_sample(std::span<const std::byte> bytes) {
    try {
        return read_sample(bytes);
    } catch (const NoSample& trouble) {
        return fail(ErrorKind::kUnreadable,
                    fmt::format("the stored member states cannot be read: {}", trouble.what()), "",
                    "make the call again from its forecast files");
    }
}

}  // namespace gloam::outlook
