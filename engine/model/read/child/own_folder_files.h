// The files Assimp may open: the mesh, and plain files of the mesh's own folder (or below it).
//
// What it names elsewhere, through a link or a "..", and what is a pipe, a device or a folder, is
// not there for it and kept in `refused`. Each file is read once, whole; its checksum is kept in
// `read`. Some readers (PLY, cut short) ask again and again for bytes past the end: after
// kMostEmptyReads such reads the stream throws, which ends the reading. Nothing can be written.
#pragma once

#include <assimp/IOStream.hpp>
#include <assimp/IOSystem.hpp>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "engine/base/input_file.h"

namespace hummock {

class OwnFolderFiles : public Assimp::IOSystem {
 public:
  static constexpr int kMostEmptyReads = 1000;

  explicit OwnFolderFiles(const std::filesystem::path& mesh);
  // The mesh's own bytes from memory: `mesh` need not be there.
  OwnFolderFiles(const std::filesystem::path& mesh, std::string bytes);

  bool Exists(const char* file) const override;
  char getOsSeparator() const override { return '/'; }
  Assimp::IOStream* Open(const char* file, const char* mode) override;
  void Close(Assimp::IOStream* stream) override;

  const std::string& mesh_bytes() const { return bytes_; }
  const std::vector<InputFile>& read() const { return read_; }
  const std::vector<std::string>& refused() const { return refused_; }

 private:
  bool is_mesh(const std::string& file) const;
  bool is_allowed(const std::string& file) const;

  std::filesystem::path mesh_;
  std::filesystem::path folder_;  // without links
  std::string bytes_;
  std::vector<InputFile> read_;
  std::vector<std::string> refused_;
};

}  // namespace hummock
