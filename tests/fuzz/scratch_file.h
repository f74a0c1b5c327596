// The bytes of one fuzzing run as a plain file that has no place on a disk.
#pragma once

#include <sys/mman.h>
#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>

namespace hummock::fuzz {

class ScratchFile {
 public:
  ScratchFile(const std::uint8_t* data, std::size_t size) : fd_(::memfd_create("fuzz", 0)) {
    for (std::size_t at = 0; at < size;) {
      const ssize_t wrote = ::write(fd_, data + at, size - at);
      if (wrote <= 0) break;
      at += static_cast<std::size_t>(wrote);
    }
  }
  ~ScratchFile() { ::close(fd_); }
  ScratchFile(const ScratchFile&) = delete;
  ScratchFile& operator=(const ScratchFile&) = delete;
  std::filesystem::path path() const { return "/proc/self/fd/" + std::to_string(fd_); }

 private:
  int fd_;
};

}  // namespace hummock::fuzz
