// Saving a file so that a crash or a full disk never leaves half of one.
#pragma once

#include <filesystem>
#include <functional>
#include <string_view>

namespace hummock {

// Writes `bytes` to a temporary beside `path`, flushes it to disk, then renames it over `path`.
// Throws InputError naming the path when the place cannot be written; `path` is then as it was.
void save_bytes(const std::filesystem::path& path, std::string_view bytes);

// The same for a library that wants a file name: `write` is called with the temporary's path (same
// folder, same extension) and must create it. If it throws, the temporary is removed.
void save_through(const std::filesystem::path& path,
                  const std::function<void(const std::filesystem::path&)>& write);

}  // namespace hummock
