#include "app/file_hash.hpp"

#include <sodium.h>

#include <array>
#include <fstream>

namespace gloam::app {

Result<std::string> sha256_of(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    std::array<char, 1U << 16U> block{};
    while (stream.read(block.data(), block.size()) || stream.gcount() > 0) {
        crypto_hash_sha256_update(&state, reinterpret_cast<const unsigned char*>(block.data()),
                                  static_cast<unsigned long long>(stream.gcount()));
    }
    if (!stream.eof()) {
        return fail(ErrorKind::kUnreadable, "the file cannot be read", file.string(),
                    "check its name and permissions");
    }
    std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
    crypto_hash_sha256_final(&state, hash.data());
    std::string hex(2 * hash.size() + 1, '\0');
    sodium_bin2hex(hex.data(), hex.size(), hash.data(), hash.size());
    hex.pop_back();
    return hex;
}

}  // namespace gloam::app
