#include "viewer/document/recovery.h"

#include <cstdint>
#include <fstream>
#include <iterator>

#include "engine/base/atomic_file.h"
#include "viewer/document/user_folders.h"

namespace hummock::viewer {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kHead = "# hummock unsaved work 1\n";

fs::path whole_path(const fs::path& site) {
  std::error_code ignored;
  const fs::path whole = fs::weakly_canonical(site, ignored);
  return whole.empty() ? fs::absolute(site) : whole;
}

}  // namespace

std::string text_hash(std::string_view text) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211ULL;
  }
  static constexpr char kDigits[] = "0123456789abcdef";
  std::string out(16, '0');
  for (std::size_t i = 0; i < 16; ++i) out[15 - i] = kDigits[hash >> (4 * i) & 15];
  return out;
}

fs::path recovery_file(const fs::path& site) {
  const fs::path whole = whole_path(site);
  return state_folder() / "unsaved" /
         (whole.filename().string() + "." + text_hash(whole.string()) + ".toml");
}

void keep_for_recovery(const fs::path& site, std::string_view text, std::string_view base_hash) {
  const fs::path file = recovery_file(site);
  std::error_code ignored;
  fs::create_directories(file.parent_path(), ignored);
  std::string whole(kHead);
  whole += "# site " + whole_path(site).string() + "\n";
  whole += "# base " + std::string(base_hash) + "\n";
  whole += "# text " + text_hash(text) + "\n";
  whole += text;
  save_bytes(file, whole);
}

std::optional<Recovered> find_recovery(const fs::path& site) {
  std::ifstream in(recovery_file(site), std::ios::binary);
  if (!in) return std::nullopt;
  std::string head;
  std::string named;
  std::string base;
  std::string hash;
  if (!std::getline(in, head) || head + "\n" != kHead) return std::nullopt;
  if (!std::getline(in, named) || !std::getline(in, base) || !std::getline(in, hash))
    return std::nullopt;
  if (base.rfind("# base ", 0) != 0 || hash.rfind("# text ", 0) != 0) return std::nullopt;
  Recovered out{{std::istreambuf_iterator<char>(in), {}}, base.substr(7)};
  if (text_hash(out.text) != hash.substr(7)) return std::nullopt;
  return out;
}

void forget_recovery(const fs::path& site) {
  std::error_code ignored;
  fs::remove(recovery_file(site), ignored);
}

}  // namespace hummock::viewer
