#include "engine/species/find_species.h"

#include <algorithm>

#include "engine/base/assets.h"
#include "engine/base/input_error.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

constexpr const char* kEnding = ".species.toml";

std::optional<fs::path> shipped_folder() {
  try {
    return assets_folder() / "species";
  } catch (const InputError&) {
    return std::nullopt;
  }
}

bool is_bare_name(const std::string& named) {
  return named.find('/') == std::string::npos && named.find(".toml") == std::string::npos;
}

}  // namespace

std::optional<fs::path> find_species(const std::string& named, const fs::path& folder) {
  if (named.empty() || named.find('\0') != std::string::npos || named.size() > 1000) {
    return std::nullopt;
  }
  std::vector<fs::path> tries{folder / named};
  if (is_bare_name(named)) {
    const std::string file = named + kEnding;
    tries = {folder / file, folder / "species" / file};
    if (const auto shipped = shipped_folder()) tries.push_back(*shipped / file);
  }
  std::error_code ignored;
  for (const fs::path& one : tries) {
    if (fs::is_regular_file(one, ignored)) return one;
  }
  return std::nullopt;
}

std::vector<std::string> shipped_species() {
  std::vector<std::string> names;
  const auto folder = shipped_folder();
  std::error_code ignored;
  if (!folder || !fs::is_directory(*folder, ignored)) return names;
  for (const auto& entry : fs::directory_iterator(*folder, ignored)) {
    const std::string file = entry.path().filename().string();
    const std::size_t at = file.find(kEnding);
    if (at != std::string::npos && at > 0) names.push_back(file.substr(0, at));
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::string shipped_species_in_words() {
  std::string out;
  for (const std::string& name : shipped_species()) out += (out.empty() ? "" : ", ") + name;
  return out.empty() ? "none shipped" : out + " (shipped)";
}

}  // namespace hummock
