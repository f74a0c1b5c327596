#include "engine/base/assets.h"

#include <cstdlib>

#include "engine/base/input_error.h"

namespace hummock {

std::filesystem::path assets_folder() {
  namespace fs = std::filesystem;
  std::error_code ignored;
  if (const char* given = std::getenv("HUMMOCK_ASSETS"); given != nullptr && *given != '\0') {
    if (fs::is_directory(given, ignored)) return given;
    throw InputError({"", 0, "HUMMOCK_ASSETS"}, std::string("\"") + given + "\"",
                     "a folder that exists");
  }
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
  fs::path installed = program.parent_path().parent_path() / "share" / "hummock";
  if (fs::is_directory(installed, ignored)) return installed;
  fs::path source = HUMMOCK_SOURCE_ASSETS;
  if (fs::is_directory(source, ignored)) return source;
  throw InputError({"", 0, "assets"}, "no folder of shipped data", "set HUMMOCK_ASSETS to it");
}

}  // namespace hummock
