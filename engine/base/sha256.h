// SHA-256 (FIPS 180-4, by Nettle) of bytes in memory.
#pragma once

#include <string>
#include <string_view>

namespace hummock {

std::string sha256_hex(std::string_view bytes);
std::string sha256_base64(std::string_view bytes);  // as a content security policy names a script

}  // namespace hummock
