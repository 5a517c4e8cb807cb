// Windows: its own library of digests.
#include "halfsplit/base/digest.hpp"

#include <fmt/format.h>

#include "base/calls_windows.hpp"

#include <array>
#include <stdexcept>

namespace halfsplit {

namespace {

void succeed(NTSTATUS status) {
    if (status < 0) throw std::runtime_error(fmt::format("no SHA-256 from Windows: {:#x}", status));
}

// Opened once: that takes longer than a digest does. Several threads may use it.
BCRYPT_ALG_HANDLE algorithm() {
    static const BCRYPT_ALG_HANDLE handle = [] {
        BCRYPT_ALG_HANDLE opened = nullptr;
        succeed(BCryptOpenAlgorithmProvider(&opened, BCRYPT_SHA256_ALGORITHM, nullptr, 0));
        return opened;
    }();
    return handle;
}

}  // namespace

std::string sha256(std::string_view text) {
    BCRYPT_HASH_HANDLE hash = nullptr;
    succeed(BCryptCreateHash(algorithm(), &hash, nullptr, 0, nullptr, 0, 0));
    auto* bytes = reinterpret_cast<PUCHAR>(const_cast<char*>(text.data()));  // read only, whatever its type
    std::array<unsigned char, 32> digest{};
    NTSTATUS status = BCryptHashData(hash, bytes, static_cast<ULONG>(text.size()), 0);
    if (status >= 0) status = BCryptFinishHash(hash, digest.data(), static_cast<ULONG>(digest.size()), 0);
    BCryptDestroyHash(hash);
    succeed(status);
    std::string result;
    for (const unsigned char byte : digest) result += fmt::format("{:02x}", byte);
    return result;
}

}  // namespace halfsplit
