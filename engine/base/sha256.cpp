#include "engine/base/sha256.h"

#include <nettle/base64.h>
#include <nettle/sha2.h>

#include <array>

namespace hummock {
namespace {

using Digest = std::array<std::uint8_t, SHA256_DIGEST_SIZE>;

Digest digest_of(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  Digest digest{};
  sha256_digest(&context, digest.size(), digest.data());
  return digest;
}

}  // namespace

std::string sha256_hex(std::string_view bytes) {
  constexpr const char* kHex = "0123456789abcdef";
  std::string text;
  for (const std::uint8_t byte : digest_of(bytes)) {
    text += kHex[byte >> 4];
    text += kHex[byte & 15];
  }
  return text;
}

std::string sha256_base64(std::string_view bytes) {
  const Digest digest = digest_of(bytes);
  std::string text(BASE64_ENCODE_RAW_LENGTH(digest.size()), '\0');
  base64_encode_raw(text.data(), digest.size(), digest.data());
  return text;
}

}  // namespace hummock
