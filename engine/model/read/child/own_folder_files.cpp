#include "engine/model/read/child/own_folder_files.h"

#include <algorithm>
#include <cstring>
#include <stdexcept>

namespace hummock {
namespace {

namespace fs = std::filesystem;

class MemoryStream : public Assimp::IOStream {
 public:
  explicit MemoryStream(std::string bytes) : bytes_(std::move(bytes)) {}

  size_t Read(void* buffer, size_t size, size_t count) override {
    const size_t left = bytes_.size() - at_;
    const size_t items = size == 0 ? 0 : std::min(count, left / size);
    if (items == 0 && ++empty_reads_ > OwnFolderFiles::kMostEmptyReads) {
      throw std::runtime_error("ends too early");
    }
    if (items > 0) std::memcpy(buffer, bytes_.data() + at_, items * size);
    at_ += items * size;
    return items;
  }
  size_t Write(const void*, size_t, size_t) override { return 0; }
  aiReturn Seek(size_t offset, aiOrigin origin) override {
    const size_t from = origin == aiOrigin_SET ? 0 : (origin == aiOrigin_CUR ? at_ : bytes_.size());
    const size_t to = from + offset;  // a step back wraps round, as the callers mean it
    if (to > bytes_.size()) return aiReturn_FAILURE;
    at_ = to;
    return aiReturn_SUCCESS;
  }
  size_t Tell() const override { return at_; }
  size_t FileSize() const override { return bytes_.size(); }
  void Flush() override {}

 private:
  std::string bytes_;
  size_t at_ = 0;
  int empty_reads_ = 0;
};

bool lies_in(const fs::path& file, const fs::path& folder) {
  const auto [end, rest] = std::mismatch(folder.begin(), folder.end(), file.begin(), file.end());
  return end == folder.end() && rest != file.end();
}

}  // namespace

OwnFolderFiles::OwnFolderFiles(const fs::path& mesh)
    : OwnFolderFiles(mesh, read_input(mesh, "mesh", {}, "a mesh file").bytes) {}

OwnFolderFiles::OwnFolderFiles(const fs::path& mesh, std::string bytes)
    : mesh_(mesh), bytes_(std::move(bytes)) {
  std::error_code ignored;
  const fs::path folder = mesh.parent_path().empty() ? fs::path(".") : mesh.parent_path();
  folder_ = fs::canonical(folder, ignored);
  read_.push_back(record_of("mesh", mesh, bytes_));
}

bool OwnFolderFiles::is_mesh(const std::string& file) const {
  return fs::path(file).lexically_normal() == mesh_.lexically_normal();
}

bool OwnFolderFiles::is_allowed(const std::string& file) const {
  std::error_code error;
  const fs::path real = fs::canonical(file, error);
  if (error || folder_.empty()) return false;
  return lies_in(real, folder_) && fs::is_regular_file(real, error);
}

bool OwnFolderFiles::Exists(const char* file) const {
  return is_mesh(file) || is_allowed(file);
}

Assimp::IOStream* OwnFolderFiles::Open(const char* file, const char* mode) {
  if (std::strpbrk(mode, "wa+") != nullptr) return nullptr;
  if (is_mesh(file)) return new MemoryStream(bytes_);
  if (!is_allowed(file)) {
    refused_.emplace_back(file);
    return nullptr;
  }
  try {
    InputBytes beside = read_input(fs::canonical(file), "beside the mesh", {}, "");
    read_.push_back(beside.record);
    return new MemoryStream(std::move(beside.bytes));
  } catch (const InputError&) {  // gone in between, or no plain file any more
    refused_.emplace_back(file);
    return nullptr;
  }
}

void OwnFolderFiles::Close(Assimp::IOStream* stream) {
  delete stream;
}

}  // namespace hummock
