#include "engine/base/input_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "engine/base/sha256.h"

namespace hummock {
namespace {

class Opened {
 public:
  // O_NONBLOCK: opening a pipe nobody writes to would wait for ever.
  explicit Opened(const std::filesystem::path& path)
      : fd_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY)) {}
  ~Opened() {
    if (fd_ >= 0) ::close(fd_);
  }
  Opened(const Opened&) = delete;
  Opened& operator=(const Opened&) = delete;
  int fd() const { return fd_; }

 private:
  int fd_;
};

// Until the end, whatever the size was said to be. Empty string and errno when it fails.
bool read_whole(int fd, std::size_t likely, std::string& bytes) {
  bytes.resize(likely + 1);
  std::size_t have = 0;
  while (true) {
    const ssize_t got = ::read(fd, bytes.data() + have, bytes.size() - have);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return false;
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
    if (have > kMostInputBytes) break;
    if (have == bytes.size()) bytes.resize(2 * have);
  }
  bytes.resize(have);
  return true;
}

std::string in_marks(const std::filesystem::path& path) {
  return "'" + path.filename().string() + "'";
}

}  // namespace

InputFile record_of(const std::string& role, const std::filesystem::path& path,
                    std::string_view bytes) {
  return {role, path.filename().string(), sha256_hex(bytes), bytes.size()};
}

InputBytes read_input(const std::filesystem::path& path, const std::string& role,
                      const Where& where, const std::string& allowed) {
  const Opened file(path);
  if (file.fd() < 0 && (errno == ENOENT || errno == ENOTDIR)) {
    throw InputError(where, "no such file " + in_marks(path), allowed);
  }
  struct stat there {};
  if (file.fd() < 0 || ::fstat(file.fd(), &there) != 0) {
    throw InputError(
        where, in_marks(path) + ", which cannot be read (" + std::strerror(errno) + ")", allowed);
  }
  if (!S_ISREG(there.st_mode)) {
    throw InputError(where, in_marks(path) + ", which is not a plain file", allowed);
  }
  InputBytes out;
  if (static_cast<std::uintmax_t>(there.st_size) > kMostInputBytes ||
      !read_whole(file.fd(), static_cast<std::size_t>(there.st_size), out.bytes) ||
      out.bytes.size() > kMostInputBytes) {
    throw InputError(where, in_marks(path) + ", which cannot be read or has more than 2 GB",
                     allowed + ", cut to the site");
  }
  out.record = record_of(role, path, out.bytes);
  return out;
}

}  // namespace hummock
