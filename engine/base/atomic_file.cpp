#include "engine/base/atomic_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iterator>
#include <string>

#include "engine/base/input_error.h"
#include "engine/base/resource_error.h"
#include "engine/base/temporaries.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

constexpr int kMostLinks = 40;
constexpr mode_t kUsualMode = 0666;

class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return fd_; }

 private:
  int fd_;
};

// 0, or errno.
int write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t wrote = ::write(fd, bytes.data(), bytes.size());
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(wrote));
  }
  return 0;
}

fs::path temporary_beside(const fs::path& path) {
  return path.parent_path() / ("." + path.stem().string() + "." + std::to_string(::getpid()) +
                               ".part" + path.extension().string());
}

fs::path folder_of(const fs::path& path) {
  return path.parent_path().empty() ? fs::path(".") : path.parent_path();
}

// A temporary under its own name, gone again unless `keep` was called.
class Part {
 public:
  explicit Part(fs::path path) : path_(std::move(path)) { remember_temporary(path_); }
  ~Part() {
    std::error_code ignored;
    if (!kept_) fs::remove(path_, ignored);
    forget_temporary(path_);
  }
  Part(const Part&) = delete;
  Part& operator=(const Part&) = delete;
  const fs::path& path() const { return path_; }
  void keep() { kept_ = true; }

 private:
  fs::path path_;
  bool kept_ = false;
};

void keep_mode(int fd, const fs::path& replaced) {
  struct stat there {};
  if (::stat(replaced.c_str(), &there) == 0) ::fchmod(fd, there.st_mode & 07777U);
}

// Without the flush a rename can reach the disk before the data does.
void fill(int fd, std::string_view bytes, const fs::path& path) {
  int error = write_all(fd, bytes);
  if (error == 0 && ::fsync(fd) != 0 && means_no_room(errno)) error = errno;
  if (error != 0) refuse_place(path.string(), error);
  keep_mode(fd, path);
}

void rename_over(Part& part, const fs::path& path) {
  if (::rename(part.path().c_str(), path.c_str()) != 0) refuse_place(path.string(), errno);
  part.keep();
}

// True when the file system lets a file be without a name until it is whole.
bool saved_unnamed(const fs::path& path, std::string_view bytes) {
  const Descriptor file(
      ::open(folder_of(path).c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, kUsualMode));
  if (file.get() < 0) return false;
  fill(file.get(), bytes, path);
  Part part(temporary_beside(path));
  ::unlink(part.path().c_str());
  const std::string self = "/proc/self/fd/" + std::to_string(file.get());
  if (::linkat(AT_FDCWD, self.c_str(), AT_FDCWD, part.path().c_str(), AT_SYMLINK_FOLLOW) != 0) {
    return false;
  }
  rename_over(part, path);
  return true;
}

void save_named(const fs::path& path, std::string_view bytes) {
  Part part(temporary_beside(path));
  {
    const Descriptor file(
        ::open(part.path().c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, kUsualMode));
    if (file.get() < 0) refuse_place(path.string(), errno);
    fill(file.get(), bytes, path);
  }
  rename_over(part, path);
}

void stream(const fs::path& path, std::string_view bytes) {
  const Descriptor file(::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY));
  const int error = file.get() < 0 ? errno : write_all(file.get(), bytes);
  if (error != 0) refuse_place(path.string(), error);
}

std::string read_back(const fs::path& file, const fs::path& path) {
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    throw InputError({path.string(), 0, ""}, "a place that cannot be written (nothing was written)",
                     "a writable folder with room");
  }
  return {std::istreambuf_iterator<char>(in), {}};
}

// For a stream the library writes into a scratch folder of its own.
void stream_through(const fs::path& path, const std::function<void(const fs::path&)>& write) {
  std::string name = (fs::temp_directory_path() / "hummock-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) refuse_place(name, errno);
  const fs::path scratch = name;
  remember_temporary(scratch);
  std::string bytes;
  std::error_code ignored;
  try {
    const fs::path file = scratch / path.filename();
    write(file);
    bytes = read_back(file, path);
  } catch (...) {
    fs::remove_all(scratch, ignored);
    forget_temporary(scratch);
    throw;
  }
  fs::remove_all(scratch, ignored);
  forget_temporary(scratch);
  stream(path, bytes);
}

}  // namespace

bool is_stream(const fs::path& path) {
  struct stat there {};
  if (::stat(path.c_str(), &there) != 0) return false;
  return S_ISFIFO(there.st_mode) || S_ISCHR(there.st_mode) || S_ISSOCK(there.st_mode) ||
         S_ISBLK(there.st_mode);
}

fs::path followed(const fs::path& path) {
  fs::path at = path;
  std::error_code error;
  for (int n = 0; fs::is_symlink(fs::symlink_status(at, error)); ++n) {
    if (n == kMostLinks) refuse_place(path.string(), ELOOP);
    const fs::path next = fs::read_symlink(at, error);
    if (error) refuse_place(path.string(), error.value());
    at = next.is_absolute() ? next : at.parent_path() / next;
  }
  return at;
}

void save_through(const fs::path& path, const std::function<void(const fs::path&)>& write) {
  if (is_stream(path)) return stream_through(path, write);
  const fs::path target = followed(path);
  Part part(temporary_beside(target));
  write(part.path());
  const Descriptor file(::open(part.path().c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) refuse_place(path.string(), errno);
  if (::fsync(file.get()) != 0 && means_no_room(errno)) refuse_place(path.string(), errno);
  keep_mode(file.get(), target);
  rename_over(part, target);
}

void save_bytes(const fs::path& path, std::string_view bytes) {
  if (is_stream(path)) return stream(path, bytes);
  const fs::path target = followed(path);
  if (!saved_unnamed(target, bytes)) save_named(target, bytes);
}

}  // namespace hummock
