#include "engine/base/atomic_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <string>

#include "engine/base/input_error.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const fs::path& path, const std::string& reason) {
  throw InputError({path.string(), 0, ""}, "a place that cannot be written (" + reason + ")",
                   "a writable folder with room");
}

// Without this a rename can reach the disk before the data does.
void flush_to_disk(const fs::path& path) {
  const int fd = ::open(path.c_str(), O_RDONLY);
  if (fd < 0) return;
  ::fsync(fd);
  ::close(fd);
}

fs::path temporary_beside(const fs::path& path) {
  return path.parent_path() / ("." + path.stem().string() + "." + std::to_string(::getpid()) +
                               ".part" + path.extension().string());
}

}  // namespace

void save_through(const fs::path& path, const std::function<void(const fs::path&)>& write) {
  const fs::path part = temporary_beside(path);
  std::error_code ignored;
  try {
    write(part);
  } catch (...) {
    fs::remove(part, ignored);
    throw;
  }
  if (!fs::exists(part, ignored)) refuse(path, "nothing was written");
  flush_to_disk(part);
  std::error_code error;
  fs::rename(part, path, error);
  if (error) {
    fs::remove(part, ignored);
    refuse(path, error.message());
  }
}

void save_bytes(const fs::path& path, std::string_view bytes) {
  save_through(path, [&](const fs::path& part) {
    std::ofstream out(part, std::ios::binary);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) refuse(path, std::strerror(errno));
  });
}

}  // namespace hummock
