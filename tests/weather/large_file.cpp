// A file of ten gigabytes, which is nowhere: real GFS messages, then messages that nobody wants, with the
// headers of real ones and made up as they are read, then real ones again.
#include <gmock/gmock.h>
#include <sys/resource.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "weather/grib/octets.hpp"
#include "weather/grib/visit.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::Bytes;

/// Cover of one run on levels and as totals, 26 messages.
const Bytes& real_messages() {
    static const Bytes bytes = [] {
        const std::filesystem::path file =
            GLOAM_SOURCE_DIR "/data/weather/gfs-global-1deg-2025012900-f006-tcdc-profile.grib2";
        Bytes read(std::filesystem::file_size(file));
        std::ifstream(file, std::ios::binary).read(reinterpret_cast<char*>(read.data()), std::ssize(read));
        return read;
    }();
    return bytes;
}

void put(Bytes& bytes, std::size_t at, std::uint64_t value, std::size_t octets) {
    for (std::size_t i = 0; i < octets; ++i) {
        bytes[at + i] = static_cast<std::byte>(value >> (8 * (octets - 1 - i)));
    }
}

/// Sections 0 to 6 of the first real message and the head of section 7, as of a message of `length` octets.
class Headers {
  public:
    explicit Headers(std::uint64_t length) {
        std::size_t values = 16;
        while (std::to_integer<int>(real_messages()[values + 4]) != 7) {
            product_ = std::to_integer<int>(real_messages()[values + 4]) == 4 ? values : product_;
            values += static_cast<std::size_t>(big_endian(real_messages(), values, 4));
        }
        bytes = {real_messages().begin(), real_messages().begin() + static_cast<std::ptrdiff_t>(values + 5)};
        put(bytes, 8, length, 8);
        put(bytes, values, length - values - 4, 4);
    }
    Headers& with_hour(std::uint64_t hour) {
        put(bytes, product_ + 18, hour, 4);
        return *this;
    }
    Headers& with_parameter(std::uint64_t number) {
        put(bytes, product_ + 10, number, 1);
        return *this;
    }

    Bytes bytes;

  private:
    std::size_t product_ = 0;
};

constexpr std::uint64_t kLength = 500'000;  // of a message, as GFS writes them on a quarter of a degree
constexpr std::uint64_t kMessages = 20'000;
constexpr std::uint64_t kEvery = 100;  // one of so many is of a parameter that is not used

/// Ten gigabytes, and what was read of them.
class LargeFile {
  public:
    ByteSource source() {
        return {2 * real_messages().size() + kLength * kMessages,
                [this](std::uint64_t offset, std::span<std::byte> into) { return read(offset, into); }};
    }
    std::uint64_t unwanted_octets_read() const { return unwanted_octets_read_; }
    std::size_t largest_reading() const { return largest_reading_; }

  private:
    std::size_t read(std::uint64_t offset, std::span<std::byte> into) {
        largest_reading_ = std::max(largest_reading_, into.size());
        std::size_t done = 0;
        for (; done < into.size() && offset + done < source().size; ++done) {
            into[done] = octet(offset + done);
        }
        return done;
    }

    std::byte octet(std::uint64_t place) {
        if (place < real_messages().size()) {
            return real_messages()[place];
        }
        place -= real_messages().size();
        if (place >= kLength * kMessages) {
            return real_messages()[place - kLength * kMessages];
        }
        ++unwanted_octets_read_;
        const Bytes& headers = place / kLength % kEvery == 0 ? not_used_.bytes : later_.bytes;
        const std::uint64_t within = place % kLength;
        if (within >= kLength - 4) {
            return std::byte{'7'};
        }
        return within < headers.size() ? headers[within] : std::byte{0};
    }

    Headers later_ = Headers(kLength).with_hour(120);
    Headers not_used_ = Headers(kLength).with_parameter(22 + 200);
    std::uint64_t unwanted_octets_read_ = 0;
    std::size_t largest_reading_ = 0;
};

/// What a visit to it finds, and what it costs.
class SyntheticLargeFile : public ::testing::Test {
  protected:
    SyntheticLargeFile() {
        Wanted wanted;
        wanted.span = {at("2025-01-29T06:00:00Z"), at("2025-01-29T06:00:00Z")};
        const FieldVisitor visitor{
            .wants = [wanted](const FieldHeader& field) { return is_wanted(wanted, field); },
            .take = [this](DecodedField&& decoded) -> Result<void> {
                kept_octets_ += decoded.field.values.size() * sizeof(float);
                fields_.push_back(std::move(decoded.field));
                return {};
            },
            .pass_over = [this](const NotWanted&) -> Result<void> {
                ++passed_over_;
                return {};
            },
            .skip = [this](SkippedMessage&&) { ++skipped_; }};
        messages_ = visit_grib(file_.source(), "large.grib2", visitor).value();
    }

    /// Greatest memory of this process so far, octets.
    static std::size_t memory() {
        rusage usage{};
        getrusage(RUSAGE_SELF, &usage);
        return 1024 * static_cast<std::size_t>(usage.ru_maxrss);
    }

    LargeFile file_;
    std::size_t memory_before_ = memory();
    std::vector<Field> fields_;
    std::size_t kept_octets_ = 0;
    std::size_t passed_over_ = 0;
    std::size_t skipped_ = 0;
    std::size_t messages_ = 0;
};

TEST_F(SyntheticLargeFile, OnlyWhatIsWantedOfItIsDecoded) {
    EXPECT_EQ(messages_, 52 + kMessages);
    EXPECT_EQ(fields_.size(), 52U);
    EXPECT_EQ(fields_.back().origin.message, 52 + static_cast<int>(kMessages));
    EXPECT_EQ(passed_over_, kMessages - kMessages / kEvery);
    EXPECT_EQ(skipped_, kMessages / kEvery);
}

TEST_F(SyntheticLargeFile, OfTheOtherMessagesNothingIsReadButTheirBeginningAndTheirEndMark) {
    constexpr std::uint64_t kMarks = 4 + 4;
    EXPECT_LE(file_.unwanted_octets_read(), kMessages * (kBeginning + kMarks));
    EXPECT_LE(file_.largest_reading(), 100'000U);  // of a wanted message
}

TEST_F(SyntheticLargeFile, TheMemoryIsThatOfTheFieldsThatAreKept) {
#if defined(__SANITIZE_ADDRESS__)
    constexpr std::size_t kKeptBack = 400'000'000;  // the sanitizer gives freed memory back much later
#else
    constexpr std::size_t kKeptBack = 0;
#endif
    // In a process of its own ecCodes reads its definitions here, once; those of names are the most of it.
    constexpr std::size_t kDefinitions = 45'000'000;
    EXPECT_LE(memory() - memory_before_, kept_octets_ + 10'000'000 + kDefinitions + kKeptBack);
}

}  // namespace
}  // namespace gloam::weather
