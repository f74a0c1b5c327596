// A raster and what lies beside it, as GDAL is allowed to see them: in memory only.
//
// The file's bytes and those of its known companions (.prj, world file, .aux.xml, .msk) are read
// once and put under GDAL's /vsimem/; nothing else of the disk or of a network can be named from
// there. A companion that is a link out of the raster's own folder, or no plain file, is left out.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/base/input_file.h"

namespace hummock::ground {

class MemoryFiles {
 public:
  // Throws InputError at `where` when the raster is not there or no plain file.
  MemoryFiles(const std::filesystem::path& file, const Where& where);
  ~MemoryFiles();
  MemoryFiles(const MemoryFiles&) = delete;
  MemoryFiles& operator=(const MemoryFiles&) = delete;

  const std::string& path() const { return path_; }  // for GDAL
  std::string_view bytes() const { return files_.front().bytes; }
  std::vector<InputFile> records() const;

 private:
  void add(const std::string& name, InputBytes read);
  void add_companions(const std::filesystem::path& file);

  std::string folder_;
  std::string path_;
  std::vector<InputBytes> files_;
  std::vector<std::string> names_;
};

}  // namespace hummock::ground
