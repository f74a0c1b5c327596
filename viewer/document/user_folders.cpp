#include "viewer/document/user_folders.h"

#include <cstdlib>
#include <string>

namespace hummock::viewer {
namespace {

std::filesystem::path folder(const char* variable, const char* below_home) {
  const char* given = std::getenv(variable);
  if (given != nullptr && *given == '/') return std::filesystem::path(given) / "hummock";
  const char* home = std::getenv("HOME");
  const std::filesystem::path base = home != nullptr && *home != '\0'
                                         ? std::filesystem::path(home)
                                         : std::filesystem::path("/tmp");
  return base / below_home / "hummock";
}

}  // namespace

std::filesystem::path config_folder() {
  return folder("XDG_CONFIG_HOME", ".config");
}

std::filesystem::path state_folder() {
  return folder("XDG_STATE_HOME", ".local/state");
}

}  // namespace hummock::viewer
