#include "engine/report/checksums.h"

#include <nettle/base64.h>
#include <nettle/sha2.h>

#include <array>
#include <fstream>
#include <iterator>

namespace hummock::report {
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

void add(std::vector<InputFile>& list, const std::string& role, const std::filesystem::path& path) {
  if (path.empty()) return;
  std::ifstream in(path, std::ios::binary);
  if (!in) {
    list.push_back({role, path.filename().string(), kNotThere, 0});
    return;
  }
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  list.push_back({role, path.filename().string(), sha256_hex(bytes), bytes.size()});
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

std::vector<InputFile> input_files(const Site& site) {
  std::vector<InputFile> list;
  add(list, "site", site.file);
  add(list, "species", site.species_file);
  add(list, "ground raster", site.ground.raster);
  add(list, "ground points", site.ground.points);
  for (const Object& object : site.objects) add(list, "mesh of " + object.name, object.file);
  add(list, "climate", site.climate);
  return list;
}

}  // namespace hummock::report
